/* Writes the load cases that are measured, 16 columns. Usage: rows COUNT */
#include "rows.h"

#include <stdio.h>
#include <stdlib.h>

int main(int argc, char **argv)
{
    const long count = argc > 1 ? atol(argv[1]) : 1000;
    uint64_t x = ROWS_BEGIN;
    puts("case,od [in],wall [in],material,length [in],end_a,end_b,compression [lbf],spread_load [lbf/in],spread_clock,"
         "vertical_g,bow [in],bow_clock,miss_a [in],miss_a_clock,weld_zone [in]");
    for (long i = 0; i < count; i++) {
        const load_row r = row_next(&x);
        printf("r%ld,1.25,%.3f,4130,%.1f,fixed,fixed,%.0f,%.2f,%.0f,%.1f,%.3f,%.0f,%.3f,%.0f,1.0\n", i, r.wall,
               r.length, r.compression, r.spread_load, r.spread_clock, r.vertical_g, r.bow, r.bow_clock, r.miss_a,
               r.miss_a_clock);
    }
    return ferror(stdout) != 0;
}
