#!/bin/sh
# The library is pure: the symbols of its archive show no state and no call of the system.
# Usage: pure.sh ARCHIVE [NM]
# Exit: 0 pure, 1 not, 2 unknown, 77 built with a sanitizer or for coverage, which add their own symbols.
set -eu
LC_ALL=C
export LC_ALL
archive=$1
nm=${2:-nm}

symbols=$("$nm" -f sysv "$archive") || exit 2
[ -n "$symbols" ] || exit 2
if printf '%s\n' "$symbols" | grep -Eq '__(asan|ubsan|tsan|msan|sanitizer|gcov|llvm_prf|llvm_profile|start___sancov)'; then
    echo "$archive is instrumented: not judged"
    exit 77
fi

# name|value|class|type|size|line|section; constants that hold addresses stand in .data.rel.ro, read-only once loaded
printf '%s\n' "$symbols" | awk -F'|' '
    function trim(s) { gsub(/^[ \t]+|[ \t]+$/, "", s); return s }
    /^(Symbols|Undefined symbols) from / { member = $0; sub(/.*\[/, "", member); sub(/\].*/, "", member) }
    NF < 7 { next }
    {
        name = trim($1); class = trim($3); section = trim($7)
        seen++
        if (class ~ /^[bBdDCgGsS]$/ && section !~ /^\.data\.rel\.ro/) {
            print "writable: " name " (" class ", " section ")"
            bad = 1
        }
        if (class ~ /^[TtRrWV]$/ || (class ~ /^[dD]$/ && section ~ /^\.data\.rel\.ro/)) own[name] = 1
        if (class == "T" && name ~ /^rbow_/) entries++
        # the order of the joints of a frame is found with memory that is returned at once (frame.h)
        if (member == "open.c.o" && (name == "malloc" || name == "free")) next
        if (class == "U" || class == "w" || class == "v") wanted[name] = 1
    }
    END {
        # what it may ask: mathematics, comparing and copying memory, the solvers of GSL that own no heap, what the
        # processor can (from the compiler, which finds it out as the program starts)
        n = split("acos asin atan atan2 cbrt ceil copysign cos cosh erf exp expm1 fabs floor fma fmax fmin fmod " \
                  "frexp hypot ldexp log log10 log1p lround modf nextafter pow remainder rint round sin sincos sinh " \
                  "sqrt tan tanh trunc __isinf __isnan __finite __fpclassify __signbit " \
                  "memchr memcmp memcpy memmove memset strcmp strlen strncmp " \
                  "_GLOBAL_OFFSET_TABLE_ __stack_chk_fail __memcpy_chk __memmove_chk __memset_chk __cpu_model", list, " ")
        for (i = 1; i <= n; i++) allowed[list[i]] = 1
        for (name in wanted) {
            if (name in own || name in allowed) continue
            if (name ~ /^gsl_/ && name !~ /(alloc|_free|_error|_stream|_fopen|_fprintf|_fscanf|_handler|rng_env|env_setup)/) continue
            print "not allowed: " name
            bad = 1
        }
        if (seen < 20 || entries < 5) {
            print "these are not the symbols of the engine: " seen + 0 " symbols, " entries + 0 " entries"
            exit 2
        }
        exit bad ? 1 : 0
    }'
