#include "study/frame_problem.h"

#include <railbow/material.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- copies ------------------------------------------------------------------------------------------------ */

static void *copy_of(const void *from, size_t count, size_t size)
{
    void *to = malloc((count + 1) * size);
    if (to != NULL && count > 0) memcpy(to, from, count * size);
    return to;
}

static size_t loads_of(const rbow_frame_run *runs, size_t run_count)
{
    size_t count = 0;
    for (size_t i = 0; i < run_count; i++) count += runs[i].load_count;
    return count;
}

/* The loads of all runs one after the other, and runs that point to them. */
static void take_loads(frame_problem *p, const rbow_frame_run *runs)
{
    rbow_frame_load *to = p->loads;
    for (size_t i = 0; i < p->run_count; i++) {
        p->runs[i] = runs[i];
        p->runs[i].loads = to;
        if (runs[i].load_count > 0) memcpy(to, runs[i].loads, runs[i].load_count * sizeof *to);
        to += runs[i].load_count;
    }
}

bool frame_problem_open(frame_problem *p, const rbow_frame *frame, const rbow_frame_run *runs, size_t run_count,
                        const char *const *tube_materials, const rbow_material *materials, size_t material_count)
{
    *p = (frame_problem){
        .joints = copy_of(frame->joints, frame->joint_count, sizeof *p->joints),
        .tubes = copy_of(frame->tubes, frame->tube_count, sizeof *p->tubes),
        .tube_materials = copy_of(tube_materials, frame->tube_count, sizeof *p->tube_materials),
        .joint_count = frame->joint_count,
        .tube_count = frame->tube_count,
        .load_count = loads_of(runs, run_count),
        .run_count = run_count,
        .materials = materials,
        .material_count = material_count,
    };
    p->loads = malloc((p->load_count + 1) * sizeof *p->loads);
    p->runs = malloc((run_count + 1) * sizeof *p->runs);
    if (p->joints == NULL || p->tubes == NULL || p->tube_materials == NULL || p->loads == NULL || p->runs == NULL) return false;
    take_loads(p, runs);
    return true;
}

static rbow_frame frame_of(const frame_problem *p)
{
    return (rbow_frame){p->joints, p->joint_count, p->tubes, p->tube_count};
}

bool frame_problem_copy(frame_problem *to, const frame_problem *from)
{
    const rbow_frame frame = frame_of(from);
    const bool fine = frame_problem_open(to, &frame, from->runs, from->run_count, from->tube_materials, from->materials,
                                         from->material_count);
    to->first_run = from->first_run;
    to->details = from->details;
    to->judged = from->judged;
    return fine;
}

void frame_problem_close(frame_problem *p)
{
    free(p->joints);
    free(p->tubes);
    free(p->tube_materials);
    free(p->loads);
    free(p->runs);
}

/* ---- parameters -------------------------------------------------------------------------------------------- */

static char *place_of(const frame_problem *p, frame_parameter of)
{
    if (of.table == FRAME_JOINTS) return (char *)&p->joints[of.row] + (of.offset - offsetof(joint_row, joint));
    if (of.table == FRAME_TUBES) return (char *)&p->tubes[of.row] + (of.offset - offsetof(frame_tube_row, tube));
    return (char *)&p->loads[of.row] + (of.offset - offsetof(frame_load_row, load));
}

double frame_parameter_get(const frame_problem *p, frame_parameter of)
{
    double value;
    memcpy(&value, place_of(p, of), sizeof value);
    return value;
}

rbow_status frame_parameter_set(frame_problem *p, frame_parameter of, double value)
{
    memcpy(place_of(p, of), &value, sizeof value);
    if (of.table != FRAME_TUBES || of.offset != offsetof(frame_tube_row, tube.wall)) return RBOW_OK;
    int known;
    const rbow_material *k = rbow_material_find(p->materials, p->material_count, p->tube_materials[of.row], value, &known);
    if (k == NULL) return RBOW_WALL_NOT_SERVED;
    p->tubes[of.row].material = k;
    return RBOW_OK;
}

/* ---- answers ----------------------------------------------------------------------------------------------- */

rbow_status frame_problem_fault(const frame_problem *p)
{
    const rbow_frame frame = frame_of(p);
    rbow_frame_fault fault;
    if (rbow_frame_faults(&frame, &fault, 1) > 0) return fault.status;
    for (size_t i = 0; i < p->run_count; i++)
        if (rbow_frame_run_faults(&frame, &p->runs[i], &fault, 1) > 0) return fault.status;
    return frame_details_fault(p->details, &frame, NULL);
}

typedef struct opened { /* a solver of the problem, and its details on their tubes */
    void *memory;
    rbow_frame_solver *solver;
    rbow_frame_detail *details;
    size_t detail_count;
} opened;

/* opened_close whatever the status. */
static rbow_status opened_of(opened *o, const frame_problem *p, const rbow_frame *frame)
{
    *o = (opened){.memory = NULL};
    const rbow_status fault = frame_problem_fault(p);
    if (fault != RBOW_OK) return fault;
    const size_t size = rbow_frame_memory(frame), details = p->details != NULL ? p->details->count : 0; /* size 0: no memory */
    o->memory = size > 0 ? malloc(size) : NULL;
    o->details = malloc((details + 1) * sizeof *o->details);
    if (o->memory == NULL || o->details == NULL) return RBOW_NO_MEMORY;
    o->detail_count = frame_details_on(p->details, frame, o->details);
    const rbow_status status = rbow_frame_open(frame, o->memory, &o->solver, NULL);
    if (status == RBOW_OK) rbow_frame_judge_only(o->solver, p->judged);
    return status;
}

static void opened_close(opened *o)
{
    free(o->memory);
    free(o->details);
}

/* Of one run. Returned: found  governs  of a detail: FRAME_BY_DETAIL and more */
static rbow_status margin_of(const opened *o, const rbow_frame_run *run, double most, rbow_frame_lowest *found)
{
    size_t detail;
    const rbow_status status = rbow_frame_details_margin(o->solver, run, o->details, o->detail_count, most, found, &detail);
    if (status == RBOW_OK && detail < o->detail_count) found->governs = FRAME_BY_DETAIL + (int)detail;
    return status;
}

/* Over all runs. */
static rbow_status lowest_below(const frame_problem *p, const opened *o, double most, frame_lowest *lowest)
{
    rbow_status status = RBOW_OK;
    *lowest = (frame_lowest){.lowest = {.margin = most, .governs_at = NAN, .tube = p->tube_count, .governs = RBOW_FRAME_BY_NONE}};
    for (size_t i = 0; i < p->run_count && status == RBOW_OK; i++) {
        rbow_frame_lowest found;
        const size_t run = (p->first_run + i) % p->run_count;
        if (!(lowest->lowest.margin > -1)) break;
        status = margin_of(o, &p->runs[run], lowest->lowest.margin, &found);
        if (status == RBOW_OK && found.tube < p->tube_count) *lowest = (frame_lowest){found, run};
    }
    return status;
}

/* Of some of its tubes a frame seldom has its lowest margin: in most runs they are far from any limit, and to find how far takes
 * long. So the runs are first searched as far as a small margin, then farther. */
rbow_status frame_problem_margin(const frame_problem *p, double most, frame_lowest *lowest)
{
    static const double steps[] = {0.4, 3};
    const rbow_frame frame = frame_of(p);
    opened o;
    rbow_status status = opened_of(&o, p, &frame);
    size_t step = p->judged != NULL ? 0 : sizeof steps / sizeof *steps;
    *lowest = (frame_lowest){.lowest = {.margin = most, .governs_at = NAN, .tube = p->tube_count, .governs = RBOW_FRAME_BY_NONE}};
    for (bool found = false; status == RBOW_OK && !found; step++) {
        const bool last = step >= sizeof steps / sizeof *steps || !(steps[step] < most);
        status = lowest_below(p, &o, last ? most : steps[step], lowest);
        found = last || lowest->lowest.tube < p->tube_count;
    }
    opened_close(&o);
    return status;
}

/* Those on one tube, moved to the front of the list. */
static void keep_details_of(opened *o, size_t tube)
{
    size_t kept = 0;
    for (size_t i = 0; i < o->detail_count; i++)
        if (o->details[i].tube == tube) o->details[kept++] = o->details[i];
    o->detail_count = kept;
}

rbow_status frame_problem_tube_margin(const frame_problem *p, size_t tube, double most, double *margin)
{
    const rbow_frame frame = frame_of(p);
    opened o;
    rbow_status status = opened_of(&o, p, &frame);
    double lowest = most;
    if (status == RBOW_OK) keep_details_of(&o, tube);
    for (size_t i = 0; i < p->run_count && status == RBOW_OK && lowest > -1; i++)
        status = rbow_frame_tube_margin(o.solver, &p->runs[(p->first_run + i) % p->run_count], tube, o.details, o.detail_count, lowest, &lowest);
    *margin = status == RBOW_OK ? lowest : (double)NAN;
    opened_close(&o);
    return status;
}

rbow_status frame_problem_holds(const frame_problem *p, double least, size_t first, size_t *short_run)
{
    const rbow_frame frame = frame_of(p);
    opened o;
    rbow_status status = opened_of(&o, p, &frame);
    *short_run = p->run_count;
    for (size_t i = 0; i < p->run_count && status == RBOW_OK && *short_run == p->run_count; i++) {
        rbow_frame_lowest found;
        const size_t run = (first + i) % p->run_count;
        status = margin_of(&o, &p->runs[run], least, &found);
        if (status == RBOW_OK && found.margin < least) *short_run = run;
    }
    opened_close(&o);
    return status;
}

void frame_problem_swap_first(frame_problem *p, size_t run)
{
    const rbow_frame_run first = p->runs[0];
    p->runs[0] = p->runs[run];
    p->runs[run] = first;
}

rbow_status frame_problem_check(const frame_problem *p, size_t run, rbow_frame_tube_result *tubes, rbow_frame_run_result *whole)
{
    const rbow_frame frame = frame_of(p);
    opened o;
    rbow_status status = opened_of(&o, p, &frame);
    rbow_detail_result *found = status == RBOW_OK ? malloc((o.detail_count + 1) * sizeof *found) : NULL;
    if (status == RBOW_OK && found == NULL) status = RBOW_NO_MEMORY;
    if (status == RBOW_OK) status = rbow_frame_check(o.solver, &p->runs[run], tubes, NULL, whole);
    if (status == RBOW_OK) status = rbow_frame_details_check(o.solver, &p->runs[run], o.details, o.detail_count, found);
    for (size_t i = 0; i < o.detail_count && status == RBOW_OK; i++)
        frame_detail_lower(&tubes[o.details[i].tube], i, &o.details[i].detail, &found[i]);
    free(found);
    opened_close(&o);
    return status;
}
