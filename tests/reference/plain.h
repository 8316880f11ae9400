/* A plain member check for tests: the same physics by dense stations along the tube and a dense scan of the load
 * factor, with no call into the engine. Slow, short, and meant to be read. */
#ifndef TESTS_REFERENCE_PLAIN_H
#define TESTS_REFERENCE_PLAIN_H

#include <railbow/member.h>

#include <stdbool.h>

typedef struct plain_factors {
    double yield, column, interaction;
} plain_factors;

typedef struct plain_result { /* NaN: does not exist; units as in rbow_result */
    double area, inertia, section_modulus, radius, weight;
    double wall_reduction, critical_load, effective_length, slenderness, column_stress, column_load;
    double buckling_load; /* with the ends as they are; critical_load is that of soft welds */
    double fit_axial, fit_moment, fit_stress;
    double axial, peak_moment, peak_moment_at, peak_stress, stress_use, deflection, deflection_clock;
    double fit_stress_next, peak_stress_next; /* the other zone's where both are used alike; else as above */
    double moment_next, deflection_next;      /* the largest other maximum: a tie where it is as large     */
} plain_result;

extern int plain_stations; /* places a piece between two borders; 240 */
extern int plain_scan;     /* load factors of the scan; 240            */

/* Given:    a valid concrete member (no RBOW_WELDED end, no RBOW_ANY_CLOCK, weld_zone a number) and its material
 *           tension  locked-in tension to count, lbf: plain_tension, or 0 where it has relaxed */
double plain_tension(const rbow_member *member, const rbow_material *material);
plain_factors plain_factors_of(const rbow_member *member, const rbow_material *material, double tension);
plain_result plain_check(const rbow_member *member, const rbow_material *material, double tension);

/* The largest utilisation along the tube at each of some load factors; the resultant moment and movement at one
 * place, in. The load must be below critical. */
void plain_uses(const rbow_member *member, const rbow_material *material, double tension, const double factors[], int count,
                double uses[]);
void plain_at(const rbow_member *member, const rbow_material *material, double tension, double factor, double at,
              double *moment, double *moved);

#endif
