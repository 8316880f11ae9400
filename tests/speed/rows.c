/* Writes load cases for the measurements: bowed, missed, welded, spread-loaded in both planes, 16 columns.
 * Usage: rows COUNT */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/* Marsaglia's xorshift: the same rows on every machine. */
static double share(void)
{
    static uint64_t x = 88172645463325252ULL;
    x ^= x << 13;
    x ^= x >> 7;
    x ^= x << 17;
    return (double)(x >> 11) / 9007199254740992.0;
}

static double between(double low, double high)
{
    return low + (high - low) * share();
}

int main(int argc, char **argv)
{
    const long count = argc > 1 ? atol(argv[1]) : 1000;
    static const double walls[] = {0.049, 0.058, 0.065, 0.083};
    puts("case,od [in],wall [in],material,length [in],end_a,end_b,compression [lbf],spread_load [lbf/in],spread_clock,"
         "vertical_g,bow [in],bow_clock,miss_a [in],miss_a_clock,weld_zone [in]");
    for (long i = 0; i < count; i++)
        printf("r%ld,1.25,%.3f,4130,%.1f,welded,welded,%.0f,%.2f,%.0f,%.1f,%.3f,%.0f,%.3f,%.0f,1.0\n", i,
               walls[(int)between(0, 4)], between(20, 50), between(500, 5000), between(0, 4), between(0, 360),
               between(1, 4), between(0, 0.06), between(0, 360), between(0, 0.3), between(0, 360));
    return 0;
}
