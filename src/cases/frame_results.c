#include "cases/frame_results.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- tubes ----------------------------------------------------------------------------------------------- */

#define OF_TUBE(at, dimension_, meaning_) NUMBER(frame_tube_answer, #at, result.at, dimension_, meaning_)

static const field tube_fields[] = {
    TEXT(frame_tube_answer, "tube", given.name, "name of the tube"),
    TEXT(frame_tube_answer, "part", given.part, "its group; its own name where none is given"),
    TEXT(frame_tube_answer, "run", run, "name of the run"),
    TEXT(frame_tube_answer, "from", given.from, "joint A"),
    TEXT(frame_tube_answer, "to", given.to, "joint B"),
    OF_TUBE(length, DIM_LENGTH, "from joint to joint"),
    NUMBER(frame_tube_answer, "od", given.tube.od, DIM_LENGTH, "outside diameter"),
    NUMBER(frame_tube_answer, "wall", given.tube.wall, DIM_LENGTH, "wall thickness"),
    TEXT(frame_tube_answer, "material", given.material, "name in the materials table"),
    WORD(frame_tube_answer, "verdict", result.verdict, verdict_words, "holds if the margin is 0 or more, else short"),
    OF_TUBE(margin, DIM_NONE, "smallest ratio of a load factor to the factor asked for, less 1; as built or unforced, whichever is lower"),
    TEXT(frame_tube_answer, "governs", governs,
         "check that sets the margin: column, yield, interaction or none; frame: the frame buckles first"),
    OF_TUBE(margin_as_built, DIM_NONE, "margin with all misses and gaps of the frame"),
    OF_TUBE(margin_unforced, DIM_NONE, "margin without any of them"),
    OF_TUBE(yield_factor, DIM_NONE, "load factor at which the first fibre yields"),
    OF_TUBE(column_factor, DIM_NONE, "load factor at which the push is the column load"),
    OF_TUBE(interaction_factor, DIM_NONE, "load factor at which push and bending together are at their limit"),
    OF_TUBE(path_end, DIM_NONE, "load factor at which the frame as built buckles as a whole"),
    OF_TUBE(weight, DIM_MASS, "weight of the tube"),
    OF_TUBE(column_load, DIM_FORCE, "column load by the column curve, of length/sqrt(fixity)"),
    OF_TUBE(fit_axial, DIM_FORCE, "locked-in axial force, compression positive"),
    OF_TUBE(fit_moment, DIM_MOMENT, "largest locked-in moment"),
    OF_TUBE(fit_stress, DIM_STRESS, "locked-in equivalent stress where utilisation is largest"),
    OF_TUBE(axial, DIM_FORCE, "axial force at load factor 1, compression positive"),
    OF_TUBE(torque, DIM_MOMENT, "torque at load factor 1"),
    OF_TUBE(peak_moment, DIM_MOMENT, "largest moment at load factor 1"),
    OF_TUBE(peak_moment_at, DIM_LENGTH, "distance of that moment from A"),
    OF_TUBE(peak_stress, DIM_STRESS, "equivalent stress at load factor 1, where utilisation is largest"),
    OF_TUBE(stress_use, DIM_NONE, "largest utilisation of yield at load factor 1"),
    OF_TUBE(moment_a, DIM_MOMENT, "moment at end A at load factor 1"),
    OF_TUBE(moment_a_clock, DIM_ANGLE, "clock of the convex side there"),
    OF_TUBE(moment_b, DIM_MOMENT, "moment at end B at load factor 1"),
    OF_TUBE(moment_b_clock, DIM_ANGLE, "clock of the convex side there"),
    TEXT(frame_tube_answer, "remarks", remarks, "remarks, separated by semicolons"),
    TEXT(frame_tube_answer, "note", given.note, "note of the tube"),
};
const field_list frame_tubes_list = FIELD_LIST("tube of a run", tube_fields, frame_tube_answer);

/* ---- joints ---------------------------------------------------------------------------------------------- */

#define OF_JOINT(name_, at, dimension_, meaning_) NUMBER(frame_joint_answer, name_, result.at, dimension_, meaning_)

static const field joint_fields[] = {
    TEXT(frame_joint_answer, "joint", name, "name of the joint"),
    TEXT(frame_joint_answer, "run", run, "name of the run"),
    OF_JOINT("move_x", move[RBOW_X], DIM_LENGTH, "movement forward from where it was drawn, at load factor 1"),
    OF_JOINT("move_y", move[RBOW_Y], DIM_LENGTH, "movement to the left"),
    OF_JOINT("move_z", move[RBOW_Z], DIM_LENGTH, "movement upward"),
    OF_JOINT("turn_x", turn[RBOW_X], DIM_TURN, "turn about x, right-hand"),
    OF_JOINT("turn_y", turn[RBOW_Y], DIM_TURN, "turn about y, right-hand"),
    OF_JOINT("turn_z", turn[RBOW_Z], DIM_TURN, "turn about z, right-hand"),
    OF_JOINT("react_x", react[0], DIM_FORCE, "force forward that the support puts on the joint; 0 where nothing holds it"),
    OF_JOINT("react_y", react[1], DIM_FORCE, "the same to the left"),
    OF_JOINT("react_z", react[2], DIM_FORCE, "the same upward"),
    OF_JOINT("react_mx", react[3], DIM_MOMENT, "moment about x that the support puts on the joint"),
    OF_JOINT("react_my", react[4], DIM_MOMENT, "the same about y"),
    OF_JOINT("react_mz", react[5], DIM_MOMENT, "the same about z"),
    OF_JOINT("locked_x", locked[RBOW_X], DIM_LENGTH, "movement forward without any run load: where forcing has put the joint"),
    OF_JOINT("locked_y", locked[RBOW_Y], DIM_LENGTH, "the same to the left"),
    OF_JOINT("locked_z", locked[RBOW_Z], DIM_LENGTH, "the same upward"),
};
const field_list frame_joints_list = FIELD_LIST("joint of a run", joint_fields, frame_joint_answer);

/* ---- runs ------------------------------------------------------------------------------------------------ */

#define OF_RUN(name_, at, dimension_, meaning_) NUMBER(frame_run_answer, name_, result.at, dimension_, meaning_)

static const field run_fields[] = {
    TEXT(frame_run_answer, "run", name, "name of the run"),
    WORD(frame_run_answer, "verdict", result.verdict, verdict_words, "holds if every tube holds, else short"),
    OF_RUN("margin", margin, DIM_NONE, "smallest margin of a tube"),
    TEXT(frame_run_answer, "worst_tube", worst_tube, "the tube that has it"),
    TEXT(frame_run_answer, "governs", governs, "what sets that margin"),
    OF_RUN("critical_factor", critical_factor, DIM_NONE,
           "load factor at which the straight frame buckles, from the axial forces of the frame as drawn"),
    OF_RUN("path_end", path_end, DIM_NONE, "load factor at which the frame as built buckles as a whole"),
    OF_RUN("weight", weight, DIM_MASS, "weight of all tubes"),
    OF_RUN("mass", mass, DIM_MASS, "mass of tubes and joints"),
    OF_RUN("centre_x", centre[RBOW_X], DIM_LENGTH, "centre of that mass: forward"),
    OF_RUN("centre_y", centre[RBOW_Y], DIM_LENGTH, "centre of mass: to the left"),
    OF_RUN("centre_z", centre[RBOW_Z], DIM_LENGTH, "centre of mass: up"),
    OF_RUN("move", move, DIM_LENGTH, "largest movement of a joint at load factor 1"),
    TEXT(frame_run_answer, "move_joint", move_joint, "the joint that moves so far"),
};
const field_list frame_runs_list = FIELD_LIST("run", run_fields, frame_run_answer);

/* ---- arch ------------------------------------------------------------------------------------------------ */

static const field arch_fields[] = {
    TEXT(frame_arch_row, "joint", name, "name of the joint"),
    NUMBER(frame_arch_row, "weld_x", weld[RBOW_X], DIM_LENGTH, "where to weld it so that the run brings it to its drawn place: forward"),
    NUMBER(frame_arch_row, "weld_y", weld[RBOW_Y], DIM_LENGTH, "the same to the left"),
    NUMBER(frame_arch_row, "weld_z", weld[RBOW_Z], DIM_LENGTH, "the same upward"),
    NUMBER(frame_arch_row, "rise_x", rise[RBOW_X], DIM_LENGTH, "how far that is forward of the drawn place"),
    NUMBER(frame_arch_row, "rise_y", rise[RBOW_Y], DIM_LENGTH, "how far to the left of it"),
    NUMBER(frame_arch_row, "rise_z", rise[RBOW_Z], DIM_LENGTH, "how far above it"),
};
const field_list frame_arch_list = FIELD_LIST("joint of an arched frame", arch_fields, frame_arch_row);

/* ---- asking ---------------------------------------------------------------------------------------------- */

const frame_tube_answer *frame_tubes_of(const frame_answers *a, size_t run)
{
    return a->tubes + run * a->judged;
}

const frame_tube_answer *frame_worst_run(const frame_answers *a, size_t tube)
{
    const frame_tube_answer *worst = NULL;
    for (size_t run = 0; run < a->run_count; run++) {
        const frame_tube_answer *r = frame_tubes_of(a, run) + tube;
        if (a->runs[run].solved && (worst == NULL || r->result.margin < worst->result.margin)) worst = r;
    }
    return worst;
}

bool frame_tube_holds(const frame_answers *a, size_t tube)
{
    for (size_t run = 0; run < a->run_count; run++)
        if (a->runs[run].solved && frame_tubes_of(a, run)[tube].result.verdict != RBOW_HOLDS) return false;
    return true;
}

const frame_tube_answer *frame_worst(const frame_answers *a)
{
    const frame_tube_answer *worst = NULL;
    for (size_t tube = 0; tube < a->judged; tube++) {
        const frame_tube_answer *r = frame_worst_run(a, tube);
        if (worst == NULL || (r != NULL && r->result.margin < worst->result.margin)) worst = r;
    }
    return worst;
}

static bool is_forced(const rbow_frame_tube *t)
{
    return t->miss_a > 0 || t->miss_b > 0 || fabs(t->gap) > 0;
}

bool frame_is_forced(const frame_tube_answer *r)
{
    return is_forced(&r->given.tube);
}

double frame_deciding_factor(const frame_tube_answer *r)
{
    if (r->detail.governs) return r->detail.factor;
    switch (r->result.governs) {
        case RBOW_FRAME_BY_COLUMN: return r->result.column_factor;
        case RBOW_FRAME_BY_YIELD: return r->result.yield_factor;
        case RBOW_FRAME_BY_INTERACTION: return r->result.interaction_factor;
        case RBOW_FRAME_BY_FRAME:
            return fmin(r->result.column_factor, fmin(r->result.yield_factor, r->result.interaction_factor));
        default: return INFINITY;
    }
}

/* Where the frame buckles, every factor ends there: the larger of those asked for decides. */
double frame_asked_factor(const frame_tube_answer *r)
{
    if (r->detail.governs) return r->detail.required;
    if (r->result.governs == RBOW_FRAME_BY_FRAME) return fmax(r->factor, r->factor_yield);
    return r->result.governs == RBOW_FRAME_BY_YIELD ? r->factor_yield : r->factor;
}

double frame_fixity(const frame_tube_answer *r, double critical_factor)
{
    const double pi = 3.14159265358979323846, length = r->result.length;
    rbow_section section;
    if (rbow_section_of(r->given.tube.od, r->given.tube.wall, &section) != RBOW_OK) return NAN;
    const double push = r->result.fit_axial + critical_factor * (r->result.axial - r->result.fit_axial);
    return push / (pi * pi * r->given.tube.material->elastic_modulus * section.inertia / (length * length));
}

const frame_tube_answer *frame_first_to_buckle(const frame_answers *a, double *critical_factor)
{
    const frame_tube_answer *first = NULL;
    double most = 0;
    for (size_t run = 0; run < a->run_count; run++) {
        const double factor = a->runs[run].result.critical_factor;
        for (size_t i = 0; i < a->judged && a->runs[run].solved && isfinite(factor); i++) {
            const frame_tube_answer *r = frame_tubes_of(a, run) + i;
            if (!(frame_fixity(r, factor) > most)) continue;
            most = frame_fixity(r, factor);
            *critical_factor = factor;
            first = r;
        }
    }
    return first;
}

bool frame_has_fit(const frame_model *m)
{
    for (size_t i = 0; i < m->frame.tube_count; i++)
        if (is_forced(&m->frame.tubes[i])) return true;
    return false;
}

bool frame_has_open_bow(const frame_model *m)
{
    for (size_t i = 0; i < m->tube_count; i++)
        if (m->tubes[i].tube.bow > 0 && m->tubes[i].tube.bow_clock <= RBOW_ANY_CLOCK) return true;
    return false;
}

static size_t first_solved(const frame_answers *a)
{
    size_t run = 0;
    while (!a->runs[run].solved) run++;
    return run;
}

const frame_tube_answer *frame_neighbour(const frame_answers *a)
{
    const frame_tube_answer *most = NULL;
    for (size_t i = 0; i < a->judged; i++) {
        const frame_tube_answer *r = frame_worst_run(a, i);
        if (!frame_is_forced(r) && r->result.fit_stress > (most != NULL ? most->result.fit_stress : 0)) most = r;
    }
    return most;
}

const frame_joint_answer *frame_moved_by_fit(const frame_answers *a, double *distance)
{
    const size_t count = a->model->joint_count;
    const frame_joint_answer *joints = a->joints + first_solved(a) * count, *most = NULL;
    *distance = 0;
    for (size_t i = 0; i < count; i++) {
        const double *move = joints[i].result.locked, size = hypot(hypot(move[RBOW_X], move[RBOW_Y]), move[RBOW_Z]);
        if (!(size > *distance)) continue;
        *distance = size;
        most = &joints[i];
    }
    return most;
}

bool frame_has_remark(const frame_answers *a, size_t tube, unsigned bit)
{
    for (size_t run = 0; run < a->run_count; run++) {
        const rbow_frame_tube_result *r = &frame_tubes_of(a, run)[tube].result;
        if (a->runs[run].solved && (bit == FRAME_NEAR_BUCKLING ? r->near_buckling != 0 : (r->remarks & bit) != 0)) return true;
    }
    return false;
}

double frame_fit_cost(const frame_tube_answer *r)
{
    return 100 * (r->result.margin_unforced - r->result.margin_as_built);
}

bool frame_holds_by_fit(const frame_tube_answer *r)
{
    return r->alone.margin < 0 && r->alone.margin_as_built >= 0;
}

/* ---- order ------------------------------------------------------------------------------------------------- */

typedef struct place {
    double margin;
    size_t tube;
} place;

static int by_margin(const void *a, const void *b)
{
    const place *first = a, *second = b;
    if (first->margin < second->margin) return -1;
    if (first->margin > second->margin) return 1;
    return first->tube < second->tube ? -1 : first->tube > second->tube;
}

bool frame_order_of(frame_order *order, const frame_answers *a)
{
    place *places = malloc((a->judged + 1) * sizeof *places);
    *order = (frame_order){malloc((a->judged + 1) * sizeof *order->tubes), 0};
    if (places != NULL && order->tubes != NULL) order->count = a->judged;
    for (size_t i = 0; i < order->count; i++) places[i] = (place){frame_worst_run(a, i)->result.margin, i};
    if (order->count > 0) qsort(places, order->count, sizeof *places, by_margin);
    for (size_t i = 0; i < order->count; i++) order->tubes[i] = places[i].tube;
    free(places);
    return order->count == a->judged;
}

void frame_order_free(frame_order *order)
{
    free(order->tubes);
    order->tubes = NULL;
}

size_t frame_order_listed(const frame_order *order, const frame_answers *a)
{
    size_t fallen = 0;
    while (fallen < order->count && !frame_tube_holds(a, order->tubes[fallen])) fallen++;
    const size_t rest = order->count - fallen;
    return fallen + (rest < FRAME_CLOSEST ? rest : FRAME_CLOSEST);
}
