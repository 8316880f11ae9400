#define _POSIX_C_SOURCE 200809L /* strdup */
#include "command/commands.h"

#include "command/advise.h"
#include "command/frame/detail_work.h"
#include "command/frame/explain_frame.h"
#include "command/frame/step_rows.h"
#include "program/case_check.h"
#include "program/changes.h"
#include "program/details.h"
#include "program/exit_status.h"
#include "program/facts.h"
#include "program/frame/frame_read.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "program/wanted.h"
#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/check_text.h"
#include "report/text/detail_text.h"
#include "report/text/detail_working_text.h"
#include "report/text/working_text.h"
#include "study/member_details.h"
#include "table/messages.h"
#include "table/names.h"
#include "working/working.h"

#include <stdlib.h>
#include <string.h>

/* ---- the case that is asked for ------------------------------------------------------------------------- */

enum { NAMES_SAID = 8 };

typedef struct picked { /* the rows of the file with the name, and what a message needs where there is not one row */
    const char *name; /* NULL where none was given */
    wanted wanted;   /* --case, --part and --row; a name may then be left out */
    case_changes changes; /* of --set */
    rows found;      /* of case_list */
    text lines;      /* "12, 14": the lines of the rows found */
    size_t line;     /* of the first */
    text names;      /* the first names of the file */
    size_t count;         /* of all names */
    refused_rows refused; /* other rows that are bad */
    size_t lost;          /* whether the file could not be read to its end */
    nearest_name near;
    char *nearest;
} picked;

static void note_name(picked *p, const char *name)
{
    const char *before = p->near.best;
    nearest_try(&p->near, name);
    if (p->near.best != before) {
        free(p->nearest);
        p->near.best = p->nearest = strdup(name);
    }
    if (p->count++ >= NAMES_SAID) return;
    if (p->count > 1) text_put(&p->names, ", ");
    text_quote(&p->names, name, strlen(name));
}

static int pick(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    picked *p = *(picked *const *)context;
    const load_case *c = record;
    (void)complaints;
    if (!wanted_is(&p->wanted, c, at->line)) return ALL_HOLD;
    note_name(p, c->name);
    if (p->name == NULL ? p->wanted.found == NULL : strcmp(c->name, p->name) != 0) return ALL_HOLD;
    if (p->lines.length == 0) p->line = at->line;
    text_format(&p->lines, "%s%zu", p->lines.length > 0 ? ", " : "", at->line);
    load_case changed = *c;
    changes_make(&p->changes, &changed);
    rows_add(answers, &changed);
    return ALL_HOLD;
}

static bool begin_file(const void *context, const char *file, const reader *from)
{
    picked *p = *(picked *const *)context;
    return changes_begin(&p->changes, file, from);
}

/* Returned: false after a message. */
static bool one_is_found(picked *p, const char *file)
{
    if (p->found.count == 1) return true;
    text quoted = {0}, near = {0}, message = {0};
    if (p->name != NULL) text_quote(&quoted, p->name, strlen(p->name));
    if (p->nearest != NULL) text_quote(&near, p->nearest, strlen(p->nearest));
    if (p->count > NAMES_SAID) text_format(&p->names, " and %zu more", p->count - NAMES_SAID);
    const char *name = text_string(&quoted, &message.failed), *names = text_string(&p->names, &message.failed);
    if (p->found.count > 1 && p->name == NULL)
        message_add(&message, file, 0, "case", "lines %s meet the patterns; name the one to explain, behind the file: %s",
                    text_string(&p->lines, &message.failed), names);
    else if (p->found.count > 1)
        message_add(&message, file, 0, "case", "%s stands in lines %s; give each case a name of its own",
                    name, text_string(&p->lines, &message.failed));
    else if (p->nearest != NULL)
        message_add(&message, file, 0, "case", "there is no %s; did you mean %s?", name,
                    text_string(&near, &message.failed));
    else if (p->count > 0 && p->name == NULL)
        message_add(&message, file, 0, "case", "name one case after the file; the file has %s", names);
    else if (p->count > 0)
        message_add(&message, file, 0, "case", "there is no %s; the file has %s", name, names);
    if (message.failed) say("out of memory");
    say_lines(text_string(&message, &message.failed));
    text_free(&quoted);
    text_free(&near);
    text_free(&message);
    return false;
}

/* Returned: ALL_HOLD, or NO_VERDICT if any row of the file has an error. */
static int pick_case(picked *p, const options *o, const load_case *prototype)
{
    output memory = {.format = FORMAT_TEXT};
    p->name = o->operand_count > 1 ? o->operands[1] : NULL;
    p->near = nearest_to(p->name != NULL ? p->name : "");
    p->found = rows_for(&memory, &case_list);
    const pipeline read = {.list = &case_list, .prototype = prototype, .results = &case_list, .jobs = 1, .out = &memory,
                           .kept = &p->found, .context = &p, .refused = &p->refused, .lost = &p->lost, .begin = begin_file, .answer = pick};
    const int status = pipeline_run(&read, o->operands, 1);
    return wanted_all_found(&p->wanted) ? status : NO_VERDICT;
}

/* ---- its answer ---------------------------------------------------------------------------------------- */

typedef struct explained { /* the case with its details */
    checked answer;
    detail_answer *details;
    char (*remarks)[DETAIL_REMARKS_ROOM];
    size_t count;
} explained;

/* Given: c  with its details; e  with room for them. Returned: as check_case */
static int answer_with(explained *e, const materials *m, const load_case *c, const source_line *at, text *complaints)
{
    rbow_detail_result *each = malloc((e->count + 1) * sizeof *each);
    e->details = malloc((e->count + 1) * sizeof *e->details);
    e->remarks = malloc((e->count + 1) * sizeof *e->remarks);
    complaints->failed = complaints->failed || each == NULL || e->details == NULL || e->remarks == NULL;
    const int status = complaints->failed ? NO_VERDICT : check_case(m, c, at, &e->answer, each, complaints);
    for (size_t i = 0; status != NO_VERDICT && i < e->count; i++) e->details[i] = case_detail_answer(c, i, each, e->remarks[i]);
    free(each);
    return status;
}

static void explained_close(explained *e)
{
    free(e->details);
    free(e->remarks);
}

/* Shows the working of each detail. Returned: false after a message. */
static bool put_details(text *out, const explained *e, const screen *s)
{
    bool fine = true;
    for (size_t i = 0; i < e->count; i++) {
        detail_work k;
        const bool worked = detail_work_of(&k, &e->details[i], &e->answer.row.given.member, e->answer.row.material, s->units);
        if (worked) {
            text_char(out, '\n');
            detail_working_text(out, &k.worked, &k.working, s);
        } else if (working_failed(&k.working)) {
            out->failed = true; /* rather no text than one without it */
        } else {
            say("explain: the working of detail '%s' could not be written", e->details[i].name);
        }
        fine = fine && worked;
        detail_work_free(&k);
    }
    return fine;
}

/* ---- its working ------------------------------------------------------------------------------------ */

static bool put_text(text *out, const picked *p, const load_case *prototype, const explained *e, const advice *a, const working *w,
                     const output *to, const char *file)
{
    const load_case *c = (const void *)p->found.kept;
    text words = {0}, line = {0};
    const screen s = screen_of(to, false, NULL, &words);
    check_verdict_text(out, &e->answer.row, 1, a, &s);
    details_text(out, e->details, e->count, true, &s);
    check_remarks_text(out, &e->answer.row, 1, &s);
    text_format(&line, "Given in line %zu of ", p->line);
    put_printable(&line, file);
    if (p->changes.count > 0) text_put(&line, ", and changed by --set");
    text_put(&line, "; every other column has its default");
    text_char(out, '\n');
    put_lines(out, &line, 2, &s);
    given_text(out, &case_list, c, prototype, &s);
    text_char(out, '\n');
    put_sentence(out, "The working. Numbers carry ten digits; a line done again with the digits shown agrees to six. Angles with "
                      "\u00b0 are degrees, all others radians.", 0, &s);
    working_text(out, w, &s);
    const bool fine = put_details(out, e, &s);
    put_assumptions(out, &s);
    put_end(out, &s);
    text_free(&words);
    return fine;
}

static bool write_rows(output *out, const picked *p, const options *files, const materials *m, const explained *e, const working *w)
{
    run_facts facts;
    rows written = rows_for(out, &step_list);
    put_step_rows(&written, e->answer.row.given.name, w);
    for (size_t i = 0; i < e->count; i++) {
        detail_work k;
        if (detail_work_of(&k, &e->details[i], &e->answer.row.given.member, e->answer.row.material, out->units))
            put_step_rows(&written, e->details[i].name, &k.working);
        else
            written.failed = true;
        detail_work_free(&k);
    }
    if (written.failed) say("explain: the working of a detail could not be written");
    const bool fine = !written.failed && facts_fill(&facts, files, m) && rows_begin(out, &step_list, &facts)
        && output_text(out, &written.written) && rows_end(out, p->refused.count + p->lost, NULL, NULL);
    rows_free(&written);
    facts_free(&facts);
    return fine;
}

static bool write_working(const picked *p, const options *o, const materials *m, const details *d, const load_case *prototype,
                          const explained *e, const working *w)
{
    output out;
    text t = {0};
    options files = *o;
    files.operand_count = 1; /* the other operand is a case */
    if (!output_open(&out, &files)) return false;
    if (o->format == FORMAT_AUTO) out.format = FORMAT_TEXT;
    bool fine;
    if (out.format == FORMAT_TEXT) {
        advice a;
        advise(&a, &e->answer.row, m, d, out.units);
        fine = put_text(&t, p, prototype, e, &a, w, &out, strcmp(o->operands[0], "-") == 0 ? "stdin" : o->operands[0]);
        fine = output_text(&out, &t) && fine;
    } else {
        fine = write_rows(&out, p, &files, m, e, w);
    }
    text_free(&t);
    return output_close(&out, fine) && fine;
}

/* Given: e  with its answer. Returned: false after a message. */
static bool explain_answer(const explained *e, const picked *p, const materials *m, const details *d, const options *o, const load_case *prototype)
{
    const check_row *r = &e->answer.row;
    working *w = calloc(1, sizeof *w);
    const bool worked = w != NULL && working_of(w, &r->taken, r->material, &r->tube, o->units);
    const bool whole = worked && !working_failed(w);
    if (!whole) say(w == NULL || worked ? "out of memory" : "explain: the numerical solution did not converge");
    const bool fine = whole && write_working(p, o, m, d, prototype, e, w);
    if (w != NULL) working_free(w);
    free(w);
    return fine;
}

static int explain_case(const picked *p, const materials *m, const details *d, const options *o, const load_case *prototype)
{
    load_case c = *(const load_case *)(const void *)p->found.kept;
    const source_line at = {o->operands[0], p->line};
    const size_t count = details_meet(d, c.name, case_part(&c));
    const detail_row **of = malloc((count + 1) * sizeof *of);
    explained e = {.count = count};
    text complaints = {0};
    int status = NO_VERDICT;
    complaints.failed = of == NULL;
    if (of != NULL) {
        details_pick(d, c.name, case_part(&c), of);
        const member_details its = {of, count, d->file};
        c.details = &its;
        status = answer_with(&e, m, &c, &at, &complaints);
    }
    say_own_factors(case_has_own_factor(&c, o), o);
    if (complaints.length > 0) say_lines(complaints.at);
    if (complaints.failed) say("out of memory");
    text_free(&complaints);
    if (status != NO_VERDICT && !explain_answer(&e, p, m, d, o, prototype)) status = NO_VERDICT;
    explained_close(&e);
    free(of);
    return status;
}

int command_explain(const options *o)
{
    if (o->operand_count > 0 && is_folder(o->operands[0])) return explain_frame(o);
    if (o->operand_count < 1 || o->operand_count > 2) {
        say("explain: name a file of load cases and one of its cases, or the folder of a frame, a tube and a run; see 'railbow help explain'");
        return NO_VERDICT;
    }
    if (o->report != NULL) {
        say("explain: --report is for a tube of a frame; of load cases, check writes the page, with the working of each");
        return NO_VERDICT;
    }
    materials m = {.file = NULL};
    details d = {.file = NULL};
    picked p = {0};
    load_case prototype;
    field_defaults(&case_list, &prototype);
    prototype.member.factor = o->factor;
    int status = NO_VERDICT;
    if (wanted_open(&p.wanted, o) && changes_open(&p.changes, o) && materials_open(&m, o->materials) && details_open(&d, o->details, &case_detail_list)) {
        status = pick_case(&p, o, &prototype);
        const int answered = one_is_found(&p, o->operands[0]) ? explain_case(&p, &m, &d, o, &prototype) : NO_VERDICT;
        if (answered > status) status = answered;
    }
    rows_free(&p.found);
    text_free(&p.lines);
    text_free(&p.names);
    free(p.nearest);
    changes_close(&p.changes);
    wanted_close(&p.wanted);
    details_close(&d);
    materials_close(&m);
    return status;
}
