#include "program/detail/life_parts.h"

#include "cases/case_table.h"
#include "cases/field_lines.h"
#include "cases/part_groups.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "study/parallel.h"
#include "table/messages.h"

#include <stdlib.h>
#include <string.h>

static const field life_case_fields[] = {
    TEXT(life_case, "case", name, "name of the row"),
    TEXT(life_case, "part", part, "tube of the row"),
};
const field_list life_case_list = FIELD_LIST("load case", life_case_fields, life_case);

typedef struct part { /* a tube under the loads of a run */
    const life_case **cases;
    rbow_life_row *rows;
    size_t count;
    size_t details;
    bool bad; /* after a message */
} part;

typedef struct question {
    const part *part;
    const detail_row *given;
    rbow_detail detail;
    const rbow_sn_curve *curve;
    rbow_status status;
    rbow_life_result result, unforced;
    bool short_of_memory;
} question;

typedef struct work {
    const details *details;
    const curves *curves;
    life_asked asked;
    part *parts;
    size_t part_count;
    const life_case **cases; /* of all parts, one after the other; rows likewise */
    rbow_life_row *rows;
    question *questions;
    size_t count, room;
    text complaints;
} work;

/* ---- parts ------------------------------------------------------------------------------------------------- */

static bool sort_by_part(work *w, const life_case *cases, size_t count)
{
    const char **names = malloc((count + 1) * sizeof *names);
    size_t *of = malloc((count + 1) * sizeof *of);
    for (size_t i = 0; names != NULL && i < count; i++) names[i] = cases[i].part;
    bool fine = names != NULL && of != NULL && part_groups(names, count, of, &w->part_count);
    w->parts = fine ? calloc(w->part_count + 1, sizeof *w->parts) : NULL;
    w->cases = malloc((count + 1) * sizeof *w->cases);
    w->rows = malloc((count + 1) * sizeof *w->rows);
    fine = w->parts != NULL && w->cases != NULL && w->rows != NULL;
    for (size_t i = 0; fine && i < count; i++) w->parts[of[i]].count++;
    for (size_t i = 0, begun = 0; fine && i < w->part_count; i++) {
        w->parts[i].cases = &w->cases[begun];
        w->parts[i].rows = &w->rows[begun];
        begun += w->parts[i].count;
        w->parts[i].count = 0;
    }
    for (size_t i = 0; fine && i < count; i++) {
        part *p = &w->parts[of[i]];
        p->rows[p->count] = (rbow_life_row){&cases[i].member, cases[i].cycles, cases[i].low, cases[i].high};
        p->cases[p->count++] = &cases[i];
    }
    free(names);
    free(of);
    return fine;
}

/* The columns of what was built: the loads of a part may differ, the tube may not. */
static const char *const built[] = {"od", "wall", "length", "end_a", "end_b", "bow", "bow_clock", "bow_shape", "bow_at", "miss_a",
                                    "miss_a_clock", "miss_b", "miss_b_clock", "gap", "gap_stiffness", "weld_zone", "dressed"};

/* The value of a column of the member, as a number. */
static double value_of(const life_case *c, const field *f)
{
    const char *at = (const char *)&c->member + (f->offset - offsetof(load_case, member));
    int word;
    double number;
    if (f->kind == FIELD_WORD) {
        memcpy(&word, at, sizeof word);
        return word;
    }
    memcpy(&number, at, sizeof number);
    return number;
}

/* The column in which two cases of a part are not the same tube; NULL for none. */
static const char *unlike(const life_case *a, const life_case *b)
{
    for (size_t i = 0; i < sizeof built / sizeof *built; i++) {
        const field *f = field_find(&case_list, built[i]);
        if (value_of(a, f) < value_of(b, f) || value_of(a, f) > value_of(b, f)) return built[i];
    }
    return a->material != b->material ? "material" : NULL;
}

/* A part has no life where a load is left out or its rows are not one tube. */
static void look_at_part(work *w, part *p)
{
    for (size_t i = 0; i < p->count && !p->bad; i++) {
        const life_case *first = p->cases[0], *c = p->cases[i];
        text name = {0};
        text_quote(&name, c->part, strlen(c->part));
        const char *quoted = text_string(&name, &w->complaints.failed);
        const char *column = first->material != NULL && c->material != NULL ? unlike(first, c) : NULL;
        p->bad = c->material == NULL || column != NULL;
        if (c->material == NULL)
            message_add(&w->complaints, c->file, c->line, NULL, "part %s has no life without this row", quoted);
        else if (column != NULL)
            message_add(&w->complaints, c->file, c->line, column, "is not that of line %zu, but both are of part %s, which is one tube, built "
                                                                  "once: give each tube a part of its own", first->line, quoted);
        text_free(&name);
    }
}

/* ---- details of a part --------------------------------------------------------------------------------------- */

static question *next_question(work *w)
{
    if (w->count == w->room) {
        const size_t room = 2 * w->room + 16;
        question *more = realloc(w->questions, room * sizeof *more);
        if (more == NULL) return NULL;
        w->questions = more;
        w->room = room;
    }
    return &w->questions[w->count++];
}

static bool ask(work *w, part *p, const detail_row *given)
{
    const source_line at = {w->details->file, given->line};
    const rbow_member *m = &p->cases[0]->member;
    question *q = next_question(w);
    if (q == NULL) return false;
    *q = (question){.part = p, .given = given, .detail = detail_on(given, m->length), .status = RBOW_OK};
    if (!p->bad) q->curve = curves_find(w->curves, *given->sn != '\0' ? given->sn : rbow_life_usual_curve(&q->detail, m), &at, "sn", &w->complaints);
    p->details++;
    return true;
}

/* Whether a detail that names a case sits on this part, under whichever of its loads. */
static bool sits_on(const part *p, const detail_row *given)
{
    if (strcmp(given->of, p->cases[0]->part) == 0) return true;
    for (size_t i = 0; i < p->count; i++)
        if (strcmp(given->of, p->cases[i]->name) == 0) return true;
    return false;
}

static bool ask_all(work *w)
{
    const detail_row *given = (const void *)w->details->rows.kept;
    for (size_t i = 0; i < w->part_count; i++) {
        part *p = &w->parts[i];
        look_at_part(w, p);
        for (size_t k = 0; k < w->details->count; k++)
            if (sits_on(p, &given[k]) && !ask(w, p, &given[k])) return false;
    }
    return true;
}

/* ---- lives ------------------------------------------------------------------------------------------------- */

static bool is_forced(const part *p)
{
    const rbow_member *m = &p->cases[0]->member; /* all are alike */
    return m->miss_a > 0 || m->miss_b > 0 || m->gap < 0 || m->gap > 0;
}

/* The same tube without misses and gap. */
static void solve_unforced(question *q)
{
    const part *p = q->part;
    rbow_member *members = malloc(p->count * sizeof *members);
    rbow_life_row *loads = malloc(p->count * sizeof *loads);
    q->short_of_memory = members == NULL || loads == NULL;
    for (size_t i = 0; i < p->count && !q->short_of_memory; i++) {
        members[i] = *p->rows[i].member;
        members[i].miss_a = members[i].miss_b = members[i].gap = 0;
        loads[i] = p->rows[i];
        loads[i].member = &members[i];
    }
    if (!q->short_of_memory) q->status = rbow_life_of(&q->detail, loads, p->count, p->cases[0]->material, q->curve, &q->unforced);
    free(members);
    free(loads);
}

static void solve(void *context, size_t i)
{
    work *w = context;
    question *q = &w->questions[i];
    const part *p = q->part;
    if (p->bad || q->curve == NULL) return;
    q->status = rbow_life_of(&q->detail, p->rows, p->count, p->cases[0]->material, q->curve, &q->result);
    q->unforced = q->result;
    if (q->status == RBOW_OK && w->asked.draws && is_forced(p)) solve_unforced(q);
}

/* All that is wrong with a detail, else what its life says is wrong. */
static void refuse(work *w, const question *q)
{
    enum { MOST = 32 };
    rbow_status faults[MOST];
    const life_case *c = q->part->cases[q->result.row];
    size_t count = rbow_detail_faults(&q->detail, &c->member, c->material, faults, MOST);
    if (count == 0) faults[count++] = q->status;
    for (size_t i = 0; i < count && i < MOST; i++) {
        const char *input = rbow_status_input(faults[i]);
        const bool of_case = faults[i] == RBOW_BAD_CYCLES || faults[i] == RBOW_BAD_CYCLE_LOW || faults[i] == RBOW_BAD_CYCLE_HIGH;
        message_add(&w->complaints, of_case ? c->file : w->details->file, of_case ? c->line : q->given->line, *input != '\0' ? input : NULL, "%s",
                    rbow_status_text(faults[i]));
    }
}

static void tell(const question *q, bool lacking, rows *lives)
{
    char remarks[LIFE_REMARKS_ROOM];
    const life_row life = {
        .of = q->part->cases[0]->part,
        .detail = q->given->name,
        .curve = q->curve->name,
        .most = q->part->cases[q->result.row]->name,
        .remarks = remarks,
        .lacking = lacking,
        .result = q->result,
        .sn = q->curve,
        .usual = *q->given->sn == '\0',
        .forced = is_forced(q->part),
        .loads = q->part->count,
        .given = q->detail,
        .unforced = q->unforced,
    };
    life_remarks_write(remarks, &life);
    rows_add(lives, &life);
}

static bool tell_all(work *w, life_parts *p)
{
    for (size_t i = 0; i < w->count; i++) {
        const question *q = &w->questions[i];
        if (q->short_of_memory) return false;
        const bool asked = !q->part->bad && q->curve != NULL;
        if (asked && q->status == RBOW_OK) {
            tell(q, w->asked.lacking, &p->lives);
            continue;
        }
        p->failed++;
        if (asked) refuse(w, q);
    }
    p->bare = malloc((w->part_count + 1) * sizeof *p->bare);
    p->order = malloc((p->lives.count + 1) * sizeof *p->order);
    if (p->bare == NULL || p->order == NULL) return false;
    for (size_t i = 0; i < w->part_count; i++)
        if (w->parts[i].details == 0) p->bare[p->bare_count++] = w->parts[i].cases[0]->part;
    life_rank((const void *)p->lives.kept, p->lives.count, p->order);
    return !p->lives.failed;
}

bool life_parts_answer(life_parts *p, const life_case *cases, size_t count, const details *d, const curves *c, life_asked asked)
{
    const output memory = {.format = FORMAT_TEXT};
    work w = {.details = d, .curves = c, .asked = asked};
    *p = (life_parts){.lives = rows_for(&memory, &life_list)};
    bool fine = sort_by_part(&w, cases, count) && ask_all(&w);
    if (fine) parallel_for(w.count, asked.jobs, solve, &w);
    fine = fine && tell_all(&w, p) && !w.complaints.failed;
    if (!fine) say("out of memory");
    else if (w.complaints.length > 0) say_lines(w.complaints.at);
    free(w.parts);
    free(w.cases);
    free(w.rows);
    free(w.questions);
    text_free(&w.complaints);
    return fine;
}

void life_parts_free(life_parts *p)
{
    rows_free(&p->lives);
    free(p->order);
    free(p->bare);
}
