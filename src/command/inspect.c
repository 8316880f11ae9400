#include "command/commands.h"

#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/shop/shop_pages.h"
#include "report/text/inspect_text.h"
#include "study/inspection.h"
#include "table/messages.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct inspection {
    const options *options;
    rows specs, readings, cases;
    materials materials;
    refused_rows refused; /* of readings and cases */
    size_t missing;       /* tubes without an answer, and files not read to their end */
    double gauge;         /* in */
    wanted wanted;
    bool short_of_memory; /* rows may be missing */
    int status;  /* of the files: NO_VERDICT after a message */
    int verdict; /* of the tubes */
} inspection;

/* ---- reading the tables ------------------------------------------------------------------------------- */

static int keep_row(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    (void)context, (void)at, (void)complaints;
    rows_add(answers, record);
    return ALL_HOLD;
}

/* A wall reading needs its clock. */
static int keep_reading(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const reading_row *r = record;
    (void)context;
    if (r->measure == MEASURE_WALL && isnan(r->clock)) {
        message_add(complaints, at->file, at->line, "clock", "is empty: a wall reading needs its clock round the tube");
        return NO_VERDICT;
    }
    rows_add(answers, r);
    return ALL_HOLD;
}

/* Leaves out a load case whose material has no row for its wall, with the message that check gives. */
static int keep_case(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const inspection *s = context;
    if (!wanted_is(&s->wanted, record, at->line)) return ALL_HOLD;
    if (case_material(&s->materials, record, at, complaints) == NULL) return NO_VERDICT;
    rows_add(answers, record);
    return ALL_HOLD;
}

typedef int (*keep_function)(const void *, const source_line *, const void *, rows *, text *);

/* A bare --gauge is in the unit of the readings. */
static bool take_gauge(const void *context, const char *file, const reader *from)
{
    inspection *s = (inspection *)context;
    column_unit c = {.option = "gauge", .field = field_find(&reading_list, "reading")};
    const measure *given = &s->options->gauge;
    return given->at == NULL || ((given->has_unit || column_unit_take(&c, file, from)) && case_measure_in(&c, given, &s->gauge));
}

/* Returned: ALL_HOLD, or NO_VERDICT after a message. */
static int read_whole(inspection *s, rows *kept, const field_list *list, const void *prototype, const char *file, keep_function keep,
                      const void *context)
{
    output memory = {.format = FORMAT_TEXT};
    *kept = rows_for(&memory, list);
    const pipeline p = {.list = list, .prototype = prototype, .results = list, .jobs = 1, .out = &memory, .kept = kept,
                        .context = context, .begin = list == &reading_list ? take_gauge : NULL, .refused = &s->refused,
                        .lost = &s->missing, .answer = keep};
    char *name = (char *)file; /* only read; the type is argv's */
    const int status = pipeline_run(&p, &name, 1);
    s->short_of_memory = s->short_of_memory || memory.failed;
    return status;
}

static bool specs_are_apart(const inspection *s)
{
    const spec_row *specs = (const void *)s->specs.kept;
    for (size_t i = 0; i < s->specs.count; i++)
        for (size_t k = 0; k < i; k++)
            if (strcmp(specs[i].part, specs[k].part) == 0) {
                say("%s: part: '%s' stands in two rows", s->options->spec, specs[i].part);
                return false;
            }
    return true;
}

static size_t own_factors(const inspection *s)
{
    const load_case *cases = (const void *)s->cases.kept;
    size_t count = 0;
    for (size_t i = 0; i < s->cases.count; i++) count += case_has_own_factor(&cases[i], s->options);
    return count;
}

static bool read_tables(inspection *s)
{
    spec_row spec;
    reading_row reading;
    load_case given;
    field_defaults(&spec_list, &spec);
    field_defaults(&reading_list, &reading);
    field_defaults(&case_list, &given);
    given.member.factor = s->options->factor;
    if (read_whole(s, &s->specs, &spec_list, &spec, s->options->spec, keep_row, NULL) != ALL_HOLD) return false;
    s->status = read_whole(s, &s->readings, &reading_list, &reading, s->options->operands[0], keep_reading, s);
    if (s->options->cases != NULL)
        s->status = worse_status(s->status, read_whole(s, &s->cases, &case_list, &given, s->options->cases, keep_case, s));
    if (!wanted_all_found(&s->wanted)) s->status = NO_VERDICT;
    say_own_factors(own_factors(s), s->options);
    return !s->short_of_memory && specs_are_apart(s);
}

/* ---- load cases with the measured tube ------------------------------------------------------------------------------------ */

static double margin_of(inspection *s, const load_case *c, const rbow_member *m, const char *tag)
{
    int known;
    rbow_margin answer;
    rbow_status status = RBOW_WALL_NOT_SERVED;
    const rbow_material *material = rbow_material_find(s->materials.list, s->materials.count, c->material, m->wall, &known);
    if (material != NULL) status = rbow_member_margin(m, material, &answer);
    if (status == RBOW_OK) return answer.margin;
    const char *input = rbow_status_input(status);
    say("%s: case '%.60s' with tag '%.60s': %s%s%s", s->options->cases, c->name, tag, input, *input != '\0' ? ": " : "",
        rbow_status_text(status));
    s->status = NO_VERDICT;
    return NAN;
}

/* Adds the margins of the load cases of this part, as drawn and with the measured section. */
static void add_cases(inspection *s, inspect_row tube, rows *answers)
{
    const load_case *cases = (const void *)s->cases.kept;
    size_t found = 0;
    for (size_t i = 0; i < s->cases.count; i++) {
        if (strcmp(case_part(&cases[i]), tube.part) != 0) continue;
        rbow_member measured = cases[i].member;
        measured.od = tube.od_mean;
        measured.wall = tube.bore.least;
        tube.name = cases[i].name;
        tube.margin_nominal = margin_of(s, &cases[i], &cases[i].member, tube.tag);
        tube.margin_measured = NAN;
        if (!isnan(measured.od) && !isnan(measured.wall)) tube.margin_measured = margin_of(s, &cases[i], &measured, tube.tag);
        if (tube.margin_measured < 0) s->verdict = worse_status(s->verdict, SOME_SHORT);
        tube.repeated = found++ > 0;
        rows_add(answers, &tube);
    }
    if (found == 0) rows_add(answers, &tube);
}

static int exit_of(int verdict)
{
    return verdict == INSPECT_MEETS ? ALL_HOLD : verdict == INSPECT_UNREAD ? NO_VERDICT : SOME_SHORT;
}

static const spec_row *spec_for(const inspection *s, const char *part)
{
    const spec_row *specs = (const void *)s->specs.kept;
    for (size_t i = 0; i < s->specs.count; i++)
        if (strcmp(specs[i].part, part) == 0) return &specs[i];
    return NULL;
}

static bool one_part(inspection *s, const tube_readings *t)
{
    const char *tag = t->at[0]->tag, *part = t->at[0]->part;
    for (size_t i = 1; i < t->count; i++)
        if (strcmp(t->at[i]->part, part) != 0) {
            say("%s: tag '%.60s' stands for two parts, '%.40s' and '%.40s'", s->options->operands[0], tag, part,
                t->at[i]->part);
            return false;
        }
    if (t->spec != NULL) return true;
    say("%s: part '%.40s' of tag '%.60s' is not in %s", s->options->operands[0], part, tag, s->options->spec);
    return false;
}

static void answer_tube(inspection *s, tube_readings *t, rows *answers)
{
    inspect_row tube;
    text reasons = {0};
    t->spec = spec_for(s, t->at[0]->part);
    if (!one_part(s, t)) {
        s->status = NO_VERDICT;
        s->missing++;
        return;
    }
    if (inspect_tube(t, &tube, &reasons)) {
        tube.reason = text_string(&reasons, &answers->failed);
        add_cases(s, tube, answers);
        s->verdict = worse_status(s->verdict, exit_of(tube.verdict));
    } else {
        answers->failed = true;
    }
    text_free(&reasons);
}

/* ---- all tubes, in the order in which their tags first appear in the file ----------------------------- */

static int by_tag(const void *a, const void *b)
{
    const reading_row *const *x = a, *const *y = b;
    const int order = strcmp((*x)->tag, (*y)->tag);
    return order != 0 ? order : (*x > *y) - (*x < *y);
}

typedef struct group {
    const reading_row **first;
    size_t count;
} group;

static int by_first(const void *a, const void *b)
{
    const group *x = a, *y = b;
    return (*x->first > *y->first) - (*x->first < *y->first);
}

static bool answer_all(inspection *s, rows *answers)
{
    const reading_row *readings = (const void *)s->readings.kept;
    const size_t count = s->readings.count;
    const reading_row **order = malloc((count + 1) * sizeof *order);
    group *groups = malloc((count + 1) * sizeof *groups);
    size_t tubes = 0;
    for (size_t i = 0; i < count && order != NULL; i++) order[i] = &readings[i];
    if (order != NULL && groups != NULL) {
        qsort(order, count, sizeof *order, by_tag);
        for (size_t i = 0; i < count; i++) {
            if (i == 0 || strcmp(order[i]->tag, order[i - 1]->tag) != 0) groups[tubes++] = (group){&order[i], 0};
            groups[tubes - 1].count++;
        }
        qsort(groups, tubes, sizeof *groups, by_first);
        for (size_t i = 0; i < tubes; i++) {
            tube_readings t = {.at = groups[i].first, .count = groups[i].count, .gauge = s->gauge,
                               .units = s->options->units};
            answer_tube(s, &t, answers);
        }
    }
    const bool fine = order != NULL && groups != NULL;
    free(order);
    free(groups);
    if (!fine || answers->failed) say("out of memory");
    return fine && !answers->failed;
}

static bool write_answer(const inspection *s, output *out, const rows *answers)
{
    if (out->format != FORMAT_TEXT) return rows_write(out, answers);
    text t = {0}, words = {0};
    const screen shown_on = screen_of(out, s->status == NO_VERDICT, &s->refused, &words);
    inspect_text(&t, (const void *)answers->kept, answers->count, &shown_on);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const inspection *s, output *page, const rows *answers, const run_facts *facts)
{
    const case_run as_run = {.options = s->options, .facts = *facts, .refused = s->refused};
    page_head head = report_head(&as_run, page, s->status);
    text body = {0};
    if (head.title == NULL) head.title = "Inspection of tubes";
    head.tolerance = "the fit to nine digits; readings are good to the gauge";
    page_inspect(&body, &head, (const void *)answers->kept, answers->count, s->options->cases != NULL);
    return report_write(page, &head, &body);
}

/* Into outputs that are open; page: NULL for none. Returned: whether both are whole. */
static bool write_both(inspection *s, output *out, output *page, const rows *answers, const run_facts *facts)
{
    bool fine = rows_begin(out, answers->list, facts) && write_answer(s, out, answers) && rows_end(out, s->refused.count + s->missing, NULL, NULL);
    out->incomplete = s->status == NO_VERDICT;
    if (page == NULL) return fine;
    page->incomplete = out->incomplete;
    page->answered = answers->count > 0 && write_page(s, page, answers, facts);
    return output_close(page, page->answered) && (page->answered || answers->count == 0) && fine;
}

static bool write_files(inspection *s, const rows *answers, const run_facts *facts)
{
    output out, page;
    const bool paged = s->options->report != NULL;
    if (!output_open(&out, s->options)) return false;
    if (paged && !output_open_beside(&page, &out, s->options)) {
        output_close(&out, false);
        return false;
    }
    const bool fine = write_both(s, &out, paged ? &page : NULL, answers, facts);
    return output_close(&out, fine && answers->count > 0) && fine;
}

static int inspect(inspection *s)
{
    output memory = {.format = FORMAT_TEXT};
    rows answers = rows_for(&memory, s->options->cases != NULL ? &inspect_cases_list : &inspect_list);
    run_facts facts = {.version = NULL};
    const bool written = answer_all(s, &answers) && facts_fill(&facts, s->options, &s->materials) && write_files(s, &answers, &facts);
    rows_free(&answers);
    facts_free(&facts);
    return written ? worse_status(s->status, s->verdict) : NO_VERDICT;
}

int command_inspect(const options *o)
{
    inspection s = {.options = o, .gauge = 0.001, .refused = {.names_files = true}};
    if (o->operand_count != 1 || o->spec == NULL) {
        say("inspect: name one file of readings and the spec with --spec; see 'railbow help inspect'");
        return NO_VERDICT;
    }
    const bool ready = wanted_open(&s.wanted, o) && materials_open(&s.materials, o->materials) && read_tables(&s);
    const int status = ready ? inspect(&s) : NO_VERDICT;
    rows_free(&s.specs);
    rows_free(&s.readings);
    rows_free(&s.cases);
    wanted_close(&s.wanted);
    materials_close(&s.materials);
    return status;
}
