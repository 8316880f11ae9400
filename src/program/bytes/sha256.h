/* SHA-256 of FIPS 180-4, to name the bytes of a table that an answer rests on. */
#ifndef RAILBOW_PROGRAM_BYTES_SHA256_H
#define RAILBOW_PROGRAM_BYTES_SHA256_H

#include <stddef.h>
#include <stdint.h>

enum { SHA256_BLOCK = 64, SHA256_DIGITS = 64 };

typedef struct sha256 {
    uint32_t state[8];
    uint64_t bytes; /* taken so far */
    unsigned char block[SHA256_BLOCK];
} sha256;

void sha256_start(sha256 *s);
void sha256_add(sha256 *s, const void *bytes, size_t n);

/* The digest in hexadecimal, with its NUL; nothing can be added afterwards. */
void sha256_end(sha256 *s, char digits[SHA256_DIGITS + 1]);

#endif
