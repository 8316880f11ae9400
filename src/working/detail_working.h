/* The working of one detail, from its sizes to its margin. */
#ifndef RAILBOW_WORKING_DETAIL_WORKING_H
#define RAILBOW_WORKING_DETAIL_WORKING_H

#include "cases/governing_detail.h"
#include "table/unit.h"
#include "working/steps.h"

#include <railbow/detail.h>

#include <stdbool.h>

typedef struct detail_worked { /* a detail with its answer, as texts and pages show it */
    const char *of, *run, *name, *note; /* as the user wrote them: the case or tube, the run of a frame, the detail; "" for none */
    const rbow_detail *detail;
    const rbow_member *member;    /* as given, or the tube of a frame: od, wall, length, weld_zone, dressed, factor and factor_yield count */
    const rbow_material *material;
    const rbow_detail_result *result;
} detail_worked;

/* The tube at the place of a detail: dressed in a weld zone. */
rbow_tube_size detail_tube_size(const detail_worked *d);

/* The load factor that the margin is held against. */
double detail_asked_factor(const detail_worked *d);

/* What it says of its limit. */
governing_detail detail_limit_of(const detail_worked *d);

/* The concrete member that governs a detail: every unknown as the result took it.
 * Given: member, material; result  of rbow_detail_check */
rbow_member detail_member_taken(const rbow_member *member, const rbow_material *material, const rbow_detail_result *result);

/* The states of a working: at the load factor of yield, at that of the welds, and as loaded. */
enum { DETAIL_AT_YIELD, DETAIL_AT_WELD, DETAIL_AS_LOADED, DETAIL_STATES };

typedef struct detail_state {
    rbow_status status;        /* of the forces: RBOW_OK, RBOW_UNSTABLE; RBOW_OUT_OF_RANGE where the load factor is infinite */
    rbow_section_forces forces; /* at the place, in the program's units */
} detail_state;

/* Their load factors; INFINITY where there is none. */
double detail_state_factor(const rbow_detail_result *result, int state);

/* Given:    detail, material
 *           taken   the concrete member, by detail_member_taken
 *           result  of rbow_detail_check
 *           w       empty; it keeps pointers into the material
 * Returned: every step in the units of the system. The moment at the load factor of the margin is calculated in a different way than
 *           the library's, as in working_of. False if the library gives no state */
bool detail_working_of(working *w, const rbow_detail *detail, const rbow_member *taken, const rbow_material *material,
                       const rbow_detail_result *result, unit_system units);

/* The same for a detail of a tube of a frame.
 * Given:    tube    od, wall, length, weld_zone, dressed, factor and factor_yield count
 *           result  of rbow_frame_detail_check
 *           states  by rbow_frame_forces at detail_state_factor, with the fit that the result took, right after the check of this detail:
 *                   the solver then holds the side of bows of unknown clock that governs
 * Returned: false, too, where the states are not those of the result: a limit is not reached at its load factor */
bool frame_detail_working_of(working *w, const rbow_detail *detail, const rbow_member *tube, const rbow_material *material,
                             const rbow_detail_result *result, const detail_state states[DETAIL_STATES], unit_system units);

#endif
