/* A frame, its runs and its results; the results as tables. */
#ifndef RAILBOW_CASES_FRAME_RESULTS_H
#define RAILBOW_CASES_FRAME_RESULTS_H

#include "cases/frame_table.h"
#include "cases/governing_detail.h"
#include "cases/remark_list.h"

typedef struct frame_run_row { /* rows of loads.csv with one name */
    const char *name;
    rbow_frame_run run;
    double cycles, cycle_low, cycle_high; /* for life */
    size_t line; /* of its first row */
} frame_run_row;

typedef struct frame_model { /* rows in the order of their files, runs in the order of their first rows */
    const joint_row *joints;
    const frame_tube_row *tubes;
    const frame_run_row *runs;
    size_t joint_count, tube_count, run_count;
    rbow_frame frame;
} frame_model;

typedef struct frame_tube_answer { /* a tube in a run */
    frame_tube_row given;
    const char *run;
    double factor, factor_yield; /* asked for; the second as resolved */
    rbow_frame_tube_result result; /* margin, verdict and governs_at: of the weakest of the tube and its details */
    rbow_frame_tube_result alone;  /* of the tube itself */
    governing_detail detail;       /* where a detail governs, result.governs is RBOW_FRAME_BY_NONE */
    const char *governs;           /* name of the check or of the detail that sets the margin */
    char remarks_text[FRAME_REMARKS_ROOM];
    const char *remarks; /* the same */
} frame_tube_answer;

typedef struct frame_joint_answer {
    const char *name, *run;
    rbow_frame_joint_result result;
} frame_joint_answer;

typedef struct frame_run_answer {
    const char *name, *worst_tube, *move_joint;
    const char *governs;          /* as of the worst tube */
    rbow_frame_run_result result; /* margin, verdict, governs: of the tubes that are judged */
    bool solved;                  /* false: it has no answer, and no rows */
} frame_run_answer;

typedef struct frame_arch_row { /* where a joint is welded so that a run brings it to its drawn place */
    const char *name;
    double weld[RBOW_AXES], rise[RBOW_AXES]; /* in; rise: weld less drawn */
} frame_arch_row;

typedef struct frame_answers { /* those of one run stand together, in the order of the model */
    const frame_model *model;
    frame_tube_answer *tubes;   /* of the tubes that are judged */
    const size_t *places;       /* of these tubes in the model, ascending */
    size_t judged;              /* tubes a run */
    frame_joint_answer *joints;
    frame_run_answer *runs;
    size_t run_count;
    const frame_arch_row *arch; /* of every joint; NULL where it was not asked for */
    const char *arch_run;
    const struct detail_answer *details; /* of the details of these tubes; those of one run stand together */
    size_t detail_count;                 /* of a run */
    const struct frame_advice *advice;   /* NULL: nothing was looked for */
} frame_answers;

typedef enum frame_of { OF_TUBES, OF_JOINTS, OF_RUNS, OF_DETAILS, OF_ARCH } frame_of; /* which of the answers */

extern const field_list frame_tubes_list, frame_joints_list, frame_runs_list, frame_arch_list; /* of these answers */

/* The rows of one run: its tubes; a tube in all runs is every `judged`-th from there. */
const frame_tube_answer *frame_tubes_of(const frame_answers *a, size_t run);

/* The answer of a tube (below `judged`) in the run with its smallest margin. */
const frame_tube_answer *frame_worst_run(const frame_answers *a, size_t tube);

/* Whether the tube holds in every run that has an answer. */
bool frame_tube_holds(const frame_answers *a, size_t tube);

/* The answer with the smallest margin of all; NULL where no run has one. */
const frame_tube_answer *frame_worst(const frame_answers *a);

/* Whether the tube is forced itself: a miss or a gap. */
bool frame_is_forced(const frame_tube_answer *r);

/* The load factor of the check that governs (INFINITY if none does), and the factor asked for against it. */
double frame_deciding_factor(const frame_tube_answer *r);
double frame_asked_factor(const frame_tube_answer *r);

/* The push of the tube when the frame buckles (what is locked in, and the run's part times the factor), over the critical load of
 * the same tube with pinned ends: about the fixity that its joints give it, where it is the tube that buckles. */
double frame_fixity(const frame_tube_answer *r, double critical_factor);

/* The tube and run with the largest of all: the one that buckles first; NULL where no tube is pushed. critical_factor: of its run */
const frame_tube_answer *frame_first_to_buckle(const frame_answers *a, double *critical_factor);

/* Whether anything was forced into the frame. */
bool frame_has_fit(const frame_model *m);

/* Whether a bow was given without a clock. */
bool frame_has_open_bow(const frame_model *m);

/* Of the tubes that are not forced themselves, the one with the largest stress before any run load, each in its worst run, as it is
 * listed: bows of unknown clock point to other sides in other runs. NULL for none. At least one run has an answer. */
const frame_tube_answer *frame_neighbour(const frame_answers *a);

/* The joint that forcing has moved most, and how far, in; NULL where nothing has moved. */
const frame_joint_answer *frame_moved_by_fit(const frame_answers *a, double *distance);

/* Whether the tube (below `judged`) has a remark in any run. bit: of the remark, or FRAME_NEAR_BUCKLING. */
enum { FRAME_NEAR_BUCKLING = 1 << RBOW_REMARK_COUNT };
bool frame_has_remark(const frame_answers *a, size_t tube, unsigned bit);

/* What the forced fit costs, in points of margin; negative where it helps. NaN: one of both margins has no limit. */
double frame_fit_cost(const frame_tube_answer *r);

/* Whether the tube is short only because what is locked in can relax. */
bool frame_holds_by_fit(const frame_tube_answer *r);

enum { FRAME_LISTED_WHOLE = 20, FRAME_CLOSEST = 10 }; /* a frame of more tubes lists the short ones and so many of the others */

typedef struct frame_order {
    size_t *tubes; /* below `judged` of the answers; the smallest margin first */
    size_t count;
} frame_order;

/* Returned: false where memory ran out; the order is then empty. At least one run has an answer. */
bool frame_order_of(frame_order *order, const frame_answers *a);
void frame_order_free(frame_order *order);

/* How many at its start are short or among the closest. */
size_t frame_order_listed(const frame_order *order, const frame_answers *a);

#endif
