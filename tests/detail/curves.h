/* The S-N curves of materials/fatigue.csv, read cell by cell. */
#ifndef TESTS_DETAIL_CURVES_H
#define TESTS_DETAIL_CURVES_H

#include "details.h"

#include <railbow/life.h>

#include <stdio.h>
#include <string.h>

enum { CURVES_MOST = 80, CURVE_CELLS = 15 };

typedef struct curves {
    char text[CURVES_MOST][400];
    rbow_sn_curve of[CURVES_MOST];
    int count;
} curves;

static inline double cell_number(const char *cell)
{
    return *cell == '\0' ? (double)NAN : strtod(cell, NULL);
}

static inline rbow_sn_curve curve_from(char *cell[CURVE_CELLS])
{
    double v[11];
    for (int i = 0; i < 10; i++) v[i] = cell_number(cell[i + 2]);
    const double unit = strcmp(cell[12], "MPa") == 0 ? 145.03773773020923 : strcmp(cell[12], "ksi") == 0 ? 1000 : (double)NAN;
    return (rbow_sn_curve){.name = cell[0], .kind = strcmp(cell[1], "weld") == 0 ? RBOW_SN_WELD : RBOW_SN_METAL, .log_a1 = v[0], .m1 = v[1],
                           .log_a2 = v[2], .m2 = v[3], .knee_cycles = v[4], .cutoff_cycles = v[5], .a1 = v[6], .a2 = v[7], .a3 = v[8],
                           .a4 = v[9], .stress_unit = unit, .deviation = cell_number(cell[13]), .source = cell[14]};
}

static inline void read_curves(curves *c)
{
    FILE *file = fopen(SOURCE_DIR "/materials/fatigue.csv", "r");
    bool header = true;
    ck_assert_ptr_nonnull(file);
    c->count = 0;
    while (c->count < CURVES_MOST && fgets(c->text[c->count], sizeof c->text[0], file) != NULL) {
        char *line = c->text[c->count], *cell[CURVE_CELLS];
        if (*line == '#') continue;
        if (header) {
            ck_assert_str_eq(line, "curve,kind,log_a1,m1,log_a2,m2,knee_cycles,cutoff_cycles,a1,a2,a3,a4,stress_unit,deviation,source\n");
            header = false;
            continue;
        }
        for (int i = 0; i < CURVE_CELLS; i++) {
            cell[i] = line;
            if (i + 1 == CURVE_CELLS) break;
            line = strchr(line, ',');
            ck_assert_ptr_nonnull(line);
            *line++ = '\0';
        }
        c->of[c->count++] = curve_from(cell);
    }
    fclose(file);
}

static inline const rbow_sn_curve *curve_of(const curves *c, const char *name)
{
    for (int i = 0; i < c->count; i++)
        if (strcmp(c->of[i].name, name) == 0) return &c->of[i];
    ck_abort_msg("no curve %s", name);
    return NULL;
}

#endif
