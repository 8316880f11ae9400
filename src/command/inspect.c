#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/say.h"
#include "command/shop_table.h"
#include "report/shop_text.h"

#include <railbow/readings.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- tables read whole ------------------------------------------------------------------------------- */

static int keep_row(const void *context, const place *at, const void *record, rows *answers, text *complaints)
{
    (void)context, (void)at, (void)complaints;
    rows_add(answers, record);
    return ALL_HOLD;
}

/* Wall readings need their clock. */
static int keep_reading(const void *context, const place *at, const void *record, rows *answers, text *complaints)
{
    const reading_row *r = record;
    (void)context;
    if (r->measure == MEASURE_WALL && isnan(r->clock)) {
        message_add(complaints, at->file, at->line, "clock", "is empty: a wall reading needs where round the tube it was read");
        return NO_VERDICT;
    }
    rows_add(answers, r);
    return ALL_HOLD;
}

/* A load case that the model refuses as drawn is left out, as check would. */
static int keep_case(const void *context, const place *at, const void *record, rows *answers, text *complaints)
{
    const materials *m = context;
    if (case_material(m, record, at, complaints) == NULL) return NO_VERDICT;
    rows_add(answers, record);
    return ALL_HOLD;
}

typedef int (*keep_function)(const void *, const place *, const void *, rows *, text *);

/* Returned: *lost becomes true where memory ran out, so that rows may be missing. */
static int read_whole(rows *kept, const field_list *list, const void *prototype, const char *file, keep_function keep,
                      const void *context, bool *lost)
{
    output memory = {.format = FORMAT_TEXT};
    *kept = rows_for(&memory, list);
    const pipeline p = {.list = list, .prototype = prototype, .results = list, .jobs = 1, .out = &memory, .kept = kept,
                        .context = context, .answer = keep};
    char *name = (char *)file; /* only read; the type is argv's */
    const int status = pipeline_run(&p, &name, 1);
    *lost = *lost || memory.failed;
    return status;
}

typedef struct inspection {
    const options *options;
    rows specs, readings, cases;
    materials materials;
    int status;  /* of the files: NO_VERDICT after a message */
    int verdict; /* of the tubes */
} inspection;

static int worse(int a, int b)
{
    return a > b ? a : b;
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

static bool read_tables(inspection *s)
{
    spec_row spec;
    reading_row reading;
    load_case given;
    field_defaults(&spec_list, &spec);
    field_defaults(&reading_list, &reading);
    field_defaults(&case_list, &given);
    given.member.factor = s->options->factor;
    bool lost = false;
    if (read_whole(&s->specs, &spec_list, &spec, s->options->spec, keep_row, NULL, &lost) != ALL_HOLD) return false;
    s->status = read_whole(&s->readings, &reading_list, &reading, s->options->operands[0], keep_reading, NULL, &lost);
    if (s->options->cases != NULL)
        s->status = worse(s->status, read_whole(&s->cases, &case_list, &given, s->options->cases, keep_case, &s->materials,
                                                &lost));
    return !lost && specs_are_apart(s);
}

/* ---- one tube ---------------------------------------------------------------------------------------- */

typedef struct tube_readings { /* all of one tag */
    const reading_row **at;
    size_t count;
    const spec_row *spec;
    double gauge;
    unit_system units;
} tube_readings;

static const double around = 2 * 3.14159265358979323846;

/* A clock for people: whole degrees, 0 ... 359. */
static int clock_of(double clock)
{
    const int degrees = (int)lround(fmod(clock, around) * 360 / around);
    return (degrees % 360 + 360) % 360;
}

static bool same_clock(double a, double b)
{
    return fabs(remainder(a - b, around)) < 1e-6;
}

/* A reading taken twice at one place counts once; which of them holds is for the shop to say. Without clocks they are
 * of different places. */
static bool is_doubled(const tube_readings *t, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (t->at[k]->measure == t->at[i]->measure && same_clock(t->at[k]->clock, t->at[i]->clock)) return true;
    return false;
}

static void say_clocks(text *next, const char *how_many, double first, double second)
{
    text_format(next, "read the wall at %s: %d and %d", how_many, clock_of(first), clock_of(second));
}

/* What to read so that the bore can be fitted: as evenly round the tube as what is there allows. */
static void say_next(text *next, const rbow_wall_reading *walls, size_t count)
{
    double up = 0, right = 0;
    for (size_t i = 0; i < count; i++) up += cos(walls[i].clock), right += sin(walls[i].clock);
    const double middle = atan2(right, up), third = around / 3;
    if (count == 0)
        text_put(next, "read the wall at clocks 0, 120 and 240");
    else if (count == 1)
        say_clocks(next, "two more clocks", walls[0].clock + third, walls[0].clock + 2 * third);
    else if (hypot(up, right) < 1e-6 * (double)count) /* opposite each other */
        say_clocks(next, "clocks across from these", walls[0].clock + around / 4, walls[0].clock + 3 * around / 4);
    else if (count == 2)
        text_format(next, "read the wall at one more clock: %d", clock_of(middle + around / 2));
    else
        say_clocks(next, "clocks further round than these", middle + third, middle + 2 * third);
}

static bool fit_wall(const tube_readings *t, inspect_row *tube, text *next)
{
    rbow_wall_reading *walls = malloc((t->count + 1) * sizeof *walls);
    rbow_bore bore;
    size_t count = 0;
    double sum = 0;
    for (size_t i = 0; i < t->count && walls != NULL; i++) {
        const reading_row *r = t->at[i];
        if (r->measure != MEASURE_WALL) continue;
        walls[count++] = (rbow_wall_reading){r->clock, r->reading};
        sum += r->reading;
        tube->wall_least = fmin(tube->wall_least, r->reading); /* fmin passes the first over NaN */
    }
    if (count > 0) tube->wall_mean = sum / (double)count;
    if (walls != NULL && rbow_bore_fit(walls, count, &bore) == RBOW_OK) {
        tube->wall_mean = bore.mean;
        tube->wall_fit_least = bore.least;
        tube->thin_clock = bore.thin_clock;
        tube->bore_offset = bore.offset;
    } else if (walls != NULL) {
        say_next(next, walls, count);
    }
    const bool fine = walls != NULL;
    free(walls);
    return fine;
}

static void gather(const tube_readings *t, inspect_row *tube)
{
    size_t count = 0;
    double sum = 0;
    for (size_t i = 0; i < t->count; i++) {
        const reading_row *r = t->at[i];
        if (r->measure == MEASURE_BOW) tube->bow = fmax(tube->bow, r->reading);
        if (r->measure != MEASURE_OD) continue;
        tube->od_least = fmin(tube->od_least, r->reading);
        tube->od_most = fmax(tube->od_most, r->reading);
        sum += r->reading;
        count++;
    }
    if (count == 0) return;
    tube->od_mean = sum / (double)count;
    tube->ovality = tube->od_most - tube->od_least;
}

/* ---- the verdict ------------------------------------------------------------------------------------- */

static void begin_reason(text *reasons)
{
    if (reasons->length > 0) text_put(reasons, "; ");
}

/* "wall reads 0.048 in, under 0.0522" */
static void add_reason(text *reasons, const tube_readings *t, const char *what, double value, const char *against,
                       double limit)
{
    const unit *u = unit_shown(DIM_LENGTH, t->units);
    begin_reason(reasons);
    text_format(reasons, "%s %.5g %s, %s %.5g %s", what, unit_from_own(u, value), u->name, against,
                unit_from_own(u, limit), u->name);
}

static void add_near(text *reasons, const tube_readings *t, const char *what, double value, double limit)
{
    const unit *u = unit_shown(DIM_LENGTH, t->units);
    text against = {0};
    text_format(&against, "within the gauge (%.3g %s) of its limit", unit_from_own(u, t->gauge), u->name);
    add_reason(reasons, t, what, value, text_string(&against, &reasons->failed), limit);
    text_free(&against);
}

typedef struct limit { /* one limit of a spec, and the reading nearest to failing it */
    const char *what, *reads;
    double value, limit;
    int below; /* the value must not be below it; else not above */
} limit;

static int limits_of(const tube_readings *t, const inspect_row *r, limit limits[4])
{
    const spec_row *s = t->spec;
    int count = 0;
    if (!isnan(s->od_least)) limits[count++] = (limit){"od", "od reads", r->od_least, s->od_least, 1};
    if (!isnan(s->od_most)) limits[count++] = (limit){"od", "od reads", r->od_most, s->od_most, 0};
    if (!isnan(s->wall_least)) limits[count++] = (limit){"wall", "wall reads", r->wall_least, s->wall_least, 1};
    if (!isnan(s->bow_most)) limits[count++] = (limit){"bow", "bow reads", r->bow, s->bow_most, 0};
    return count;
}

/* How far inside its limit; negative outside. */
static double room_of(const limit *l)
{
    return l->below ? l->value - l->limit : l->limit - l->value;
}

static void judge(const tube_readings *t, inspect_row *r, const text *next, text *reasons)
{
    limit limits[4];
    const int count = limits_of(t, r, limits);
    const double rounding = 1e-9; /* in; a limit as written is not missed by a last bit */
    bool below = false, unread = false, recheck = false;
    for (int i = 0; i < count; i++) {
        const limit *l = &limits[i];
        const double room = room_of(l);
        if (isnan(l->value)) {
            unread = true;
            if (strcmp(l->what, "wall") == 0) continue; /* the fit says what to read */
            if (i > 0 && strcmp(l->what, limits[i - 1].what) == 0) continue; /* said already */
            begin_reason(reasons);
            text_format(reasons, "read the %s", l->what);
        } else if (room < -t->gauge - rounding) {
            below = true;
            add_reason(reasons, t, l->reads, l->value, l->below ? "under" : "over", l->limit);
        } else if (room <= t->gauge + rounding) {
            recheck = true;
            add_near(reasons, t, l->reads, l->value, l->limit);
        }
    }
    if (!isnan(t->spec->wall_least) && isnan(r->wall_fit_least)) {
        unread = true;
        begin_reason(reasons);
        text_put(reasons, text_string(next, &reasons->failed));
    } else if (!isnan(t->spec->wall_least) && r->wall_fit_least <= t->spec->wall_least + t->gauge + rounding) {
        recheck = true;
        add_reason(reasons, t, "by the fit the thinnest wall is", r->wall_fit_least, "its limit", t->spec->wall_least);
        if (!isnan(r->thin_clock)) text_format(reasons, ": read it at clock %d", clock_of(r->thin_clock));
    }
    r->verdict = below ? INSPECT_BELOW : unread ? INSPECT_UNREAD : recheck ? INSPECT_RECHECK : INSPECT_MEETS;
}

/* ---- what it costs ------------------------------------------------------------------------------------ */

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

/* The load cases of this part, with the measured section in place of the drawn one. */
static void add_cases(inspection *s, inspect_row tube, rows *answers)
{
    const load_case *cases = (const void *)s->cases.kept;
    size_t found = 0;
    for (size_t i = 0; i < s->cases.count; i++) {
        if (strcmp(cases[i].part, tube.part) != 0) continue;
        rbow_member measured = cases[i].member;
        measured.od = tube.od_mean;
        measured.wall = tube.wall_fit_least;
        tube.name = cases[i].name;
        tube.margin_nominal = margin_of(s, &cases[i], &cases[i].member, tube.tag);
        tube.margin_measured = NAN;
        if (!isnan(measured.od) && !isnan(measured.wall)) tube.margin_measured = margin_of(s, &cases[i], &measured, tube.tag);
        if (tube.margin_measured < 0) s->verdict = worse(s->verdict, SOME_SHORT);
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
    inspect_row tube = {.tag = t->at[0]->tag, .part = t->at[0]->part, .od_mean = NAN, .od_least = NAN, .od_most = NAN,
                       .ovality = NAN, .wall_mean = NAN, .wall_least = NAN, .wall_fit_least = NAN, .thin_clock = NAN,
                       .bore_offset = NAN, .bow = NAN, .name = "", .margin_nominal = NAN, .margin_measured = NAN};
    text next = {0}, reasons = {0};
    t->spec = spec_for(s, tube.part);
    if (!one_part(s, t)) {
        s->status = NO_VERDICT;
        return;
    }
    gather(t, &tube);
    if (!fit_wall(t, &tube, &next)) {
        answers->failed = true;
        return;
    }
    judge(t, &tube, &next, &reasons);
    tube.reason = text_string(&reasons, &answers->failed);
    add_cases(s, tube, answers);
    s->verdict = worse(s->verdict, exit_of(tube.verdict));
    text_free(&next);
    text_free(&reasons);
}

/* ---- all of them, in the order in which their tags first stand in the file ----------------------------- */

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

static int by_place(const void *a, const void *b)
{
    const group *x = a, *y = b;
    return (*x->first > *y->first) - (*x->first < *y->first);
}

static void drop_doubled(inspection *s, tube_readings *t)
{
    size_t kept = 0;
    for (size_t i = 0; i < t->count; i++) {
        t->at[kept] = t->at[i];
        if (!isnan(t->at[i]->clock) && is_doubled(t, kept)) {
            static const char *const names[] = {"od", "wall", "bow"};
            say("%s: tag '%.60s': %s was read twice at clock %d; only the first counts", s->options->operands[0],
                t->at[i]->tag, names[t->at[i]->measure], clock_of(t->at[i]->clock));
            s->status = NO_VERDICT;
        } else {
            kept++;
        }
    }
    t->count = kept;
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
        qsort(groups, tubes, sizeof *groups, by_place);
        for (size_t i = 0; i < tubes; i++) {
            tube_readings t = {.at = groups[i].first, .count = groups[i].count, .gauge = s->options->gauge,
                               .units = s->options->units};
            drop_doubled(s, &t);
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
    text t = {0};
    inspect_text(&t, (const void *)answers->kept, answers->count, s->status == NO_VERDICT, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

static int inspect(inspection *s)
{
    output out, memory = {.format = FORMAT_TEXT};
    const field_list *list = s->options->cases != NULL ? &inspect_cases_list : &inspect_list;
    rows answers = rows_for(&memory, list);
    bool written = answer_all(s, &answers) && output_open(&out, s->options);
    if (written) {
        written = rows_begin(&out, list) && write_answer(s, &out, &answers) && rows_end(&out);
        written = output_close(&out, written && answers.count > 0) && written;
    }
    rows_free(&answers);
    return written ? worse(s->status, s->verdict) : NO_VERDICT;
}

int command_inspect(const options *o)
{
    inspection s = {.options = o};
    if (o->operand_count != 1 || o->spec == NULL) {
        say("inspect: name one file of readings and the spec with --spec; see 'railbow help inspect'");
        return NO_VERDICT;
    }
    const bool ready = materials_open(&s.materials, o->materials) && read_tables(&s);
    const int status = ready ? inspect(&s) : NO_VERDICT;
    rows_free(&s.specs);
    rows_free(&s.readings);
    rows_free(&s.cases);
    materials_close(&s.materials);
    return status;
}
