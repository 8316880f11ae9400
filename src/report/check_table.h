/* The answers of check and section as tables: records and their field lists. */
#ifndef RAILBOW_REPORT_CHECK_TABLE_H
#define RAILBOW_REPORT_CHECK_TABLE_H

#include "table/field.h"

enum { VERDICT_HOLDS, VERDICT_SHORT };
enum { GOVERNS_COLUMN, GOVERNS_YIELD, GOVERNS_INTERACTION, GOVERNS_NONE };

extern const field_word verdict_words[], governs_words[];

typedef struct check_row { /* NaN: does not exist; INFINITY: no limit */
    const char *name;
    double od, wall;
    const char *material;
    int verdict;
    double margin;
    int governs;
    double margin_unforced, yield_factor, column_factor, interaction_factor;
    double area, inertia, section_modulus, radius, weight, wall_reduction;
    double critical_load, effective_length, slenderness, column_stress, column_load;
    double fit_axial, fit_moment, fit_stress;
    double axial, peak_moment, peak_moment_at, peak_stress, stress_use, deflection, deflection_clock;
    const char *remarks, *note;

    /* for the text, not in the table */
    double factor, factor_yield; /* asked for */
    double length;               /* in */
    double governs_at;           /* in from A; NaN where the column as a whole governs */
    int governs_in_weld_zone;
    int runs, forced;            /* it has a run load; a miss or a gap */
} check_row;

extern const field_list check_list;

/* Whether it holds only because of what is locked in, which can relax. */
bool holds_by_fit(const check_row *r);

/* Whether a row's remarks have this one. */
bool has_remark(const char *remarks, const char *remark);

typedef struct section_row {
    double od, wall, bore, area, inertia, section_modulus, plastic_modulus, polar_inertia, radius;
    double weight_per_length, diameter_to_wall;
} section_row;

extern const field_list section_list;

#endif
