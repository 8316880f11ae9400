#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/say.h"
#include "report/study_text.h"
#include "study/problem.h"
#include "study/range.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct sweep {
    const field *columns[SWEEP_COLUMNS_MOST];
    range ranges[SWEEP_COLUMNS_MOST];
    size_t counts[SWEEP_COLUMNS_MOST];
    size_t count; /* of columns */
    sweep_columns results;
} sweep;

/* "COLUMN=FROM:TO:STEP" */
static bool read_vary(sweep *s, const char *given)
{
    const char *equals = strchr(given, '=');
    if (equals == NULL) {
        say("--vary: '%s' is not COLUMN=FROM:TO:STEP", given);
        return false;
    }
    const field *f = case_column("vary", given, (size_t)(equals - given));
    if (f == NULL) return false;
    double numbers[3];
    const char *at = equals + 1;
    for (int i = 0; i < 3; i++) {
        const size_t length = strcspn(at, ":");
        if ((at[length] == ':') != (i < 2)) {
            say("--vary: '%s' is not COLUMN=FROM:TO:STEP", given);
            return false;
        }
        if (!case_value("vary", f, at, length, &numbers[i])) return false;
        at += length + (at[length] == ':');
    }
    range *r = &s->ranges[s->count];
    *r = (range){numbers[0], numbers[1], numbers[2]};
    s->counts[s->count] = range_count(r);
    s->columns[s->count] = f;
    if (s->counts[s->count] == 0) say("--vary: '%s': the step must lead from FROM to TO", given);
    return s->counts[s->count++] > 0;
}

static bool read_sweep(sweep *s, const options *o)
{
    if (o->vary_count == 0) {
        say("sweep: name a column with --vary COLUMN=FROM:TO:STEP; see 'railbow help sweep'");
        return false;
    }
    for (int i = 0; i < o->vary_count; i++)
        if (!read_vary(s, o->vary[i])) return false;
    if (s->count == 2 && s->columns[0] == s->columns[1]) {
        say("--vary: '%s' is named twice", s->columns[0]->name);
        return false;
    }
    sweep_columns_fill(&s->results, s->columns, s->count);
    return true;
}

static void complain(const sweep *s, const place *at, const double values[], rbow_status status, text *complaints)
{
    text where = {0};
    for (size_t i = 0; i < s->count; i++) {
        const unit *u = unit_shown(s->columns[i]->dimension, UNITS_US);
        text_format(&where, "%s%s %g%s%s", i > 0 ? ", " : "", s->columns[i]->name,
                    u != NULL ? unit_from_own(u, values[i]) : values[i], u != NULL ? " " : "", u != NULL ? u->name : "");
    }
    message_add(complaints, at->file, at->line, rbow_status_input(status), "%s (at %s)", rbow_status_text(status),
                where.at);
    text_free(&where);
}

static int answer_values(const sweep *s, const problem *p, const load_case *c, const double values[], const place *at,
                         rows *answers, text *complaints)
{
    rbow_member m = p->member;
    rbow_result r;
    for (size_t i = 0; i < s->count; i++) knob_set(&m, s->columns[i]->offset - offsetof(load_case, member), values[i]);
    const rbow_status status = problem_check(p, &m, &r);
    if (status != RBOW_OK) {
        complain(s, at, values, status, complaints);
        return NO_VERDICT;
    }
    const sweep_row answer = {
        .name = c->name,
        .value = {values[0], s->count > 1 ? values[1] : (double)NAN},
        .margin = r.margin,
        .governs = r.governs,
        .verdict = r.verdict,
        .yield_factor = r.yield_factor,
        .column_factor = r.column_factor,
        .interaction_factor = r.interaction_factor,
        .fit_stress = r.fit_stress,
        .peak_stress = r.peak_stress,
        .deflection = r.deflection,
    };
    rows_add(answers, &answer);
    return r.verdict == RBOW_HOLDS ? ALL_HOLD : SOME_SHORT;
}

static int answer_case(const case_run *run, const place *at, const load_case *c, rows *answers, text *complaints)
{
    const sweep *s = run->context;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
    if (materials_for(&run->materials, c->material, c->member.wall, at, complaints) == NULL) return NO_VERDICT;
    int worst = ALL_HOLD;
    for (size_t i = 0; i < s->counts[0]; i++)
        for (size_t k = 0; k < (s->count > 1 ? s->counts[1] : 1); k++) {
            const double values[] = {range_at(&s->ranges[0], i), s->count > 1 ? range_at(&s->ranges[1], k) : (double)NAN};
            const int status = answer_values(s, &p, c, values, at, answers, complaints);
            if (status > worst) worst = status;
        }
    return worst;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    const sweep *s = run->context;
    text t = {0};
    sweep_text(&t, (const void *)kept->kept, kept->count, s->columns, s->count, *status == NO_VERDICT, out->units,
               out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

int command_sweep(const options *o)
{
    sweep s = {0};
    if (!read_sweep(&s, o)) return NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "sweep",
        .results = &s.results.list,
        .jobs = o->jobs,
        .context = &s,
        .answer = answer_case,
        .write = write_text,
    };
    return case_run_all(&run);
}
