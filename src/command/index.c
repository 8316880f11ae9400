#include "command/commands.h"

#include "cases/part_groups.h"
#include "command/frame/frame_spread.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/orientation_page.h"
#include "report/text/orientation_text.h"
#include "study/orientation.h"
#include "study/parallel.h"

#include <math.h>
#include <stdlib.h>

typedef struct index_row { /* what is kept of a case */
    orientation_row shown;
    problem problem;
} index_row;

/* ---- case by case ------------------------------------------------------------------------------------- */

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const rbow_material *material = case_material(&run->materials, c, at, complaints);
    if (material == NULL) return NO_VERDICT;
    /* named as the materials name it: the row's own text is gone when its part is answered */
    index_row answer = {.problem = {c->member, material->name, run->materials.list, run->materials.count, NULL}};
    orientation found;
    const rbow_status status = orientation_find(&answer.problem, 1, &found);
    if (status != RBOW_OK) {
        case_refused(complaints, at, status, "");
        return NO_VERDICT;
    }
    answer.shown = (orientation_row){
        .name = c->name,
        .part = case_part(c),
        .found = found,
        .cases = 1,
        .marked_clock = c->member.bow_clock,
        .bow = c->member.bow,
    };
    if (run->options->report != NULL) orientation_margins(&answer.problem, 1, answer.shown.round, ORIENTATION_CLOCKS);
    rows_add(answers, &answer);
    return found.margin_as_marked >= 0 ? ALL_HOLD : SOME_SHORT;
}

/* ---- part by part ------------------------------------------------------------------------------------- */

typedef struct part_cases { /* the cases of one part */
    problem *problems;
    size_t count;
    orientation_row shown;
} part_cases;

typedef struct parts {
    part_cases *at;
    size_t count;
    problem *problems; /* of all parts, one after the other */
    bool draws;
} parts;

static void add_case(part_cases *p, const index_row *r)
{
    if (p->count == 0) {
        p->shown = r->shown;
        p->shown.name = "";
        p->shown.is_part = true;
    } else if (!(fabs(p->shown.marked_clock - r->shown.marked_clock) <= 0)) {
        p->shown.marked_clock = NAN;
    }
    p->shown.bow = fmax(p->shown.bow, r->shown.bow);
    p->problems[p->count++] = r->problem;
    p->shown.cases = p->count;
}

static bool parts_open(parts *p, const index_row *cases, size_t count)
{
    const char **names = malloc((count + 1) * sizeof *names);
    size_t *of = malloc((count + 1) * sizeof *of);
    for (size_t i = 0; names != NULL && i < count; i++) names[i] = cases[i].shown.part;
    bool fine = names != NULL && of != NULL && part_groups(names, count, of, &p->count);
    p->at = fine ? calloc(p->count + 1, sizeof *p->at) : NULL;
    p->problems = malloc((count + 1) * sizeof *p->problems);
    fine = p->at != NULL && p->problems != NULL;
    for (size_t i = 0; fine && i < count; i++) p->at[of[i]].count++;
    for (size_t i = 0, begun = 0; fine && i < p->count; i++) {
        p->at[i].problems = &p->problems[begun];
        begun += p->at[i].count;
        p->at[i].count = 0;
    }
    for (size_t i = 0; fine && i < count; i++) add_case(&p->at[of[i]], &cases[i]);
    free(names);
    free(of);
    return fine;
}

static void parts_close(parts *p)
{
    free(p->at);
    free(p->problems);
}

/* A part with one case has its answer. Every case has been answered at every clock, so that none is refused here. */
static void answer_part(void *context, size_t i)
{
    const parts *p = context;
    part_cases *one = &p->at[i];
    if (one->count < 2) return;
    if (orientation_find(one->problems, one->count, &one->shown.found) != RBOW_OK)
        one->shown.found = (orientation){NAN, NAN, NAN, NAN, NAN};
    if (p->draws) orientation_margins(one->problems, one->count, one->shown.round, ORIENTATION_CLOCKS);
}

/* The parts, then the cases. Returned: false after a message */
static bool answer_parts(const case_run *run, const rows *kept, rows *all)
{
    const index_row *cases = (const void *)kept->kept;
    parts p = {.draws = run->options->report != NULL};
    if (parts_open(&p, cases, kept->count)) {
        parallel_for(p.count, run->options->jobs, answer_part, &p);
        for (size_t i = 0; i < p.count; i++) rows_add(all, &p.at[i].shown);
        for (size_t i = 0; i < kept->count; i++) rows_add(all, &cases[i].shown);
    } else {
        all->failed = true;
    }
    parts_close(&p);
    if (all->failed) say("out of memory");
    return !all->failed;
}

/* ---- the answer --------------------------------------------------------------------------------------- */

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    rows *all = *(rows *const *)run->context;
    if (!answer_parts(run, kept, all)) return false;
    if (out->format != FORMAT_TEXT) return rows_write(out, all);
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    orientation_text(&t, (const void *)all->kept, all->count, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const rows *all = *(rows *const *)run->context;
    text body = {0};
    const page_head head = report_head(run, page, status);
    (void)kept;
    page_orientation(&body, &head, (const void *)all->kept, all->count);
    return report_write(page, &head, &body);
}

int command_index(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return index_frame(o, o->operands[i]);
    const output memory = {.format = FORMAT_TEXT};
    rows all = rows_for(&memory, &orientation_list), *context = &all;
    field_list kept = orientation_list;
    kept.record_size = sizeof(index_row);
    case_run run = {
        .options = o,
        .name = "index",
        .results = &kept,
        .jobs = o->jobs,
        .writes_whole = true,
        .context = &context,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    const int status = case_run_all(&run);
    rows_free(&all);
    return status;
}
