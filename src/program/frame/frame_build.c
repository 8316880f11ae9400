#include "program/frame/frame_build.h"

#include "cases/part_groups.h"
#include "program/frame/frame_detail.h"
#include "program/frame/frame_rows.h"
#include "program/say.h"

#include <stdlib.h>
#include <string.h>

_Static_assert(offsetof(joint_row, name) == 0 && offsetof(frame_tube_row, name) == 0, "names are found at the start of a record");

static bool is_unset(double value)
{
    return value <= RBOW_UNSET;
}

/* ---- runs -------------------------------------------------------------------------------------------------- */

/* Which run each row belongs to: numbers in the order of their first rows. */
static size_t *run_numbers(const frame_load_row *given, size_t count, size_t *runs)
{
    size_t *of = malloc((count + 1) * sizeof *of);
    const char **names = malloc((count + 1) * sizeof *names);
    bool fine = of != NULL && names != NULL;
    for (size_t i = 0; i < count && fine; i++) names[i] = given[i].run;
    *runs = 0;
    fine = fine && part_groups(names, count, of, runs);
    free(names);
    if (fine) return of;
    free(of);
    return NULL;
}

typedef struct run_value { /* a column that has one value a run, in any of its rows */
    size_t given, taken; /* where it lies in the row, and in the run */
    double fallback;     /* where no row gives it; RBOW_UNSET stays */
} run_value;

static const run_value run_values[] = {
    {offsetof(frame_load_row, factor), offsetof(frame_run_row, run.factor), RBOW_UNSET}, /* --factor */
    {offsetof(frame_load_row, factor_yield), offsetof(frame_run_row, run.factor_yield), RBOW_UNSET},
    {offsetof(frame_load_row, cycles), offsetof(frame_run_row, cycles), 1},
    {offsetof(frame_load_row, cycle_low), offsetof(frame_run_row, cycle_low), 0},
    {offsetof(frame_load_row, cycle_high), offsetof(frame_run_row, cycle_high), 1},
};
enum { RUN_VALUES = sizeof run_values / sizeof *run_values };

static double *value_at(void *record, size_t offset)
{
    return (double *)(void *)((char *)record + offset);
}

static const char *column_at(size_t offset)
{
    for (size_t i = 0; i < frame_load_list.count; i++)
        if (frame_load_list.fields[i].offset == offset) return frame_load_list.fields[i].name;
    return NULL;
}

/* The value of a run from one of its rows; line: where it was given before, 0 for nowhere. */
static void take_value(const frame_build *b, text *complaints, const frame_load_row *from, const run_value *v, frame_run_row *run, size_t *line)
{
    const double value = *(const double *)(const void *)((const char *)from + v->given);
    double *taken = value_at(run, v->taken);
    if (is_unset(value)) return;
    if (is_unset(*taken)) {
        *taken = value;
        *line = from->line;
    } else if (value < *taken || value > *taken) {
        frame_refuse(complaints, b, FRAME_LOADS, from->line, column_at(v->given), "is %.6g, but line %zu gives its run %.6g: a run has one",
                     value, *line, *taken);
    }
}

/* Given: lines  RUN_VALUES zeros for each run */
static void take_values(frame_build *b, const frame_load_row *given, const size_t *of, size_t *lines, const options *o, text *complaints)
{
    const size_t count = b->tables.tables[FRAME_LOADS].count;
    for (size_t i = 0; i < b->model.run_count; i++)
        for (size_t k = 0; k < RUN_VALUES; k++) *value_at(&b->runs[i], run_values[k].taken) = RBOW_UNSET;
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < RUN_VALUES; k++)
            take_value(b, complaints, &given[i], &run_values[k], &b->runs[of[i]], &lines[RUN_VALUES * of[i] + k]);
        b->own_factors += o->factor_given && !is_unset(given[i].factor) && (given[i].factor < o->factor || given[i].factor > o->factor);
    }
    for (size_t i = 0; i < b->model.run_count; i++) {
        for (size_t k = 0; k < RUN_VALUES; k++)
            if (is_unset(*value_at(&b->runs[i], run_values[k].taken))) *value_at(&b->runs[i], run_values[k].taken) = run_values[k].fallback;
        if (is_unset(b->runs[i].run.factor)) b->runs[i].run.factor = o->factor;
    }
}

/* Loads in the order of their runs, and in a run in that of the file. */
static void sort_loads(frame_build *b, const frame_load_row *given, const size_t *of)
{
    const size_t count = b->tables.tables[FRAME_LOADS].count;
    size_t first = 0;
    for (size_t i = 0; i < count; i++) b->runs[of[i]].run.load_count++;
    for (size_t i = 0; i < b->model.run_count; i++) {
        b->runs[i].run.loads = b->loads + first;
        first += b->runs[i].run.load_count;
        b->runs[i].run.load_count = 0;
    }
    for (size_t i = 0; i < count; i++) {
        frame_run_row *run = &b->runs[of[i]];
        if (run->run.load_count == 0) {
            run->name = given[i].run;
            run->line = given[i].line;
        }
        b->load_rows[(size_t)(run->run.loads - b->loads) + run->run.load_count++] = i;
    }
}

/* Returned: false where memory ran out. */
static bool make_runs(frame_build *b, const options *o, text *complaints)
{
    const frame_load_row *given = (const void *)b->tables.tables[FRAME_LOADS].kept;
    size_t *of = run_numbers(given, b->tables.tables[FRAME_LOADS].count, &b->model.run_count);
    size_t *lines = calloc(RUN_VALUES * b->model.run_count + 1, sizeof *lines);
    b->runs = calloc(b->model.run_count + 1, sizeof *b->runs);
    const bool fine = of != NULL && lines != NULL && b->runs != NULL;
    if (fine) {
        b->model.runs = b->runs;
        sort_loads(b, given, of);
        take_values(b, given, of, lines, o, complaints);
    }
    free(of);
    free(lines);
    return fine;
}

/* ---- the frame --------------------------------------------------------------------------------------------- */

static bool make_lists(frame_build *b)
{
    const rows *t = b->tables.tables;
    b->model = (frame_model){
        .joints = (const void *)t[FRAME_JOINTS].kept,
        .tubes = (const void *)t[FRAME_TUBES].kept,
        .joint_count = t[FRAME_JOINTS].count,
        .tube_count = t[FRAME_TUBES].count,
    };
    b->joints = calloc(t[FRAME_JOINTS].count + 1, sizeof *b->joints);
    b->tubes = calloc(t[FRAME_TUBES].count + 1, sizeof *b->tubes);
    b->loads = calloc(t[FRAME_LOADS].count + 1, sizeof *b->loads);
    b->load_rows = calloc(t[FRAME_LOADS].count + 1, sizeof *b->load_rows);
    b->model.frame = (rbow_frame){b->joints, b->model.joint_count, b->tubes, b->model.tube_count};
    return b->joints != NULL && b->tubes != NULL && b->loads != NULL && b->load_rows != NULL;
}

/* Everything that is wrong beyond single cells. Returned: false where memory ran out. */
static bool put_together(frame_build *b, const options *o, const materials *m, text *complaints)
{
    const frame_model *model = &b->model;
    if (!make_lists(b) || !make_runs(b, o, complaints)) return false;
    if (!frame_names_open(&b->joint_names, model->joints, model->joint_count, sizeof *model->joints)
        || !frame_names_open(&b->tube_names, model->tubes, model->tube_count, sizeof *model->tubes))
        return false;
    frame_resolve(b, m, complaints);
    frame_faults_say(b, m, complaints);
    return !complaints->failed;
}

bool frame_build_read(frame_build *b, const char *folder, const options *o, const materials *m)
{
    *b = (frame_build){.references = false};
    if (o->set_count + o->row_count > 0) {
        say("--%s is for files of load cases: of a frame change the cell in its table", o->set_count > 0 ? "set" : "row");
        return false;
    }
    if (!frame_tables_name(&b->tables, folder)) return false;
    const bool whole = frame_tables_read(&b->tables, o->jobs);
    text complaints = {0};
    const bool fine = put_together(b, o, m, &complaints);
    if (!fine) say("out of memory");
    if (complaints.length > 0) say_lines(complaints.at);
    b->sound = fine && whole && complaints.length == 0;
    text_free(&complaints);
    b->sound = b->sound && frame_detail_open(b, o);
    return fine;
}

bool frame_build_open(frame_build *b, const char *folder, const options *o, const materials *m)
{
    return frame_build_read(b, folder, o, m) && b->sound;
}

void frame_build_close(frame_build *b)
{
    frame_names_close(&b->joint_names);
    frame_names_close(&b->tube_names);
    free(b->joints);
    free(b->tubes);
    free(b->loads);
    free(b->load_rows);
    free(b->runs);
    frame_detail_close(b);
    frame_tables_close(&b->tables);
}

bool frame_build_problem(const frame_build *b, const materials *m, frame_problem *p)
{
    const frame_model *model = &b->model;
    const char **names = malloc((model->tube_count + 1) * sizeof *names);
    rbow_frame_run *runs = malloc((model->run_count + 1) * sizeof *runs);
    bool fine = names != NULL && runs != NULL;
    for (size_t i = 0; i < model->tube_count && fine; i++) names[i] = model->tubes[i].material;
    for (size_t i = 0; i < model->run_count && fine; i++) runs[i] = model->runs[i].run;
    fine = fine && frame_problem_open(p, &model->frame, runs, model->run_count, names, m->list, m->count);
    if (fine) p->details = &b->details;
    if (!fine) say("out of memory");
    free(names);
    free(runs);
    return fine;
}
