#include "command/frame/frame_spread.h"

#include "cases/frame_spread_table.h"
#include "program/exit_status.h"
#include "program/frame/answer_tables.h"
#include "program/frame/folder_study.h"
#include "program/frame/frame_tolerances.h"
#include "program/progress.h"
#include "program/say.h"
#include "report/page/frame/frame_spread_page.h"
#include "report/text/frame/frame_spread_text.h"

#include <math.h>
#include <stdlib.h>

typedef struct scatter_data {
    frame_tolerances tolerances;
    frame_scatter_answer found;
    double nominal;            /* margin without tolerances */
    frame_scatter_row *drivers; /* the frame with each of its drivers, by falling share; one at least */
    size_t driver_count;
    frame_worst_row *tubes;    /* the most frequent first */
    frame_sample_row *samples; /* NULL where nobody asks for them */
    text names[SCATTER_DRIVERS];
    progress shown;
} scatter_data;

static bool go_on(void *context, size_t done)
{
    scatter_data *d = context;
    return progress_show(&d->shown, done);
}

/* ---- rows ------------------------------------------------------------------------------------------------------- */

static int more_first(const void *a, const void *b)
{
    const frame_worst_row *x = a, *y = b;
    if (x->samples < y->samples || x->samples > y->samples) return x->samples > y->samples ? -1 : 1;
    return (x->row > y->row) - (x->row < y->row);
}

static bool make_tubes(scatter_data *d, const frame_model *m)
{
    const margin_statistics *s = &d->found.tally.statistics;
    const double judged = s->samples - s->refused;
    d->tubes = malloc((m->tube_count + 1) * sizeof *d->tubes);
    for (size_t i = 0; i < m->tube_count && d->tubes != NULL; i++) {
        const double worst = (double)d->found.worst[i];
        d->tubes[i] = (frame_worst_row){m->tubes[i].name, frame_tube_part(&m->tubes[i]), worst, judged > 0 ? worst / judged : (double)NAN, i};
    }
    return d->tubes != NULL;
}

typedef struct ranked {
    double share;
    size_t place;
} ranked;

static int larger_first(const void *a, const void *b)
{
    const ranked *x = a, *y = b;
    if (x->share < y->share || x->share > y->share) return x->share > y->share ? -1 : 1;
    return (x->place > y->place) - (x->place < y->place);
}

static scatter_row summary_of(const scatter_data *d)
{
    const tally *t = &d->found.tally;
    const bool refused = t->statistics.refused > 0;
    scatter_row all = {
        .name = "The frame",
        .margins = t->statistics,
        .refused_column = refused ? rbow_status_input(t->refusal) : "",
        .refused_why = refused ? rbow_status_text(t->refusal) : "",
        .nominal = d->nominal,
        .driver = "",
        .driver_share = NAN,
    };
    scatter_fill_bars(&all, t->margins, t->finite);
    return all;
}

/* The first drivers, as the page draws them. */
static void name_drivers(scatter_data *d, scatter_row *all, const ranked *order, const frame_model *m)
{
    for (size_t i = 0; i < SCATTER_DRIVERS && i < d->tolerances.count && order[i].share > tally_chance(&d->found.tally); i++) {
        const frame_tolerance *t = &d->tolerances.list[order[i].place];
        text_format(&d->names[i], "%s of %s", frame_tolerance_column(t), frame_tolerance_name(t, m));
        all->driver_names[i] = d->names[i].at != NULL ? d->names[i].at : "";
        all->driver_shares[i] = order[i].share;
        all->drivers++;
    }
}

static bool make_drivers(scatter_data *d, const frame_model *m, bool every)
{
    const size_t count = d->tolerances.count;
    const bool finite = d->found.tally.finite > 0;
    ranked *order = malloc((count + 1) * sizeof *order);
    d->drivers = malloc((count + 1) * sizeof *d->drivers);
    if (order == NULL || d->drivers == NULL) {
        free(order);
        return false;
    }
    for (size_t i = 0; i < count; i++) order[i] = (ranked){finite ? tally_share(&d->found.tally, i) : 0, i};
    qsort(order, count, sizeof *order, larger_first);
    frame_scatter_row one = {.all = summary_of(d), .worst_tube = "", .worst_share = NAN, .driver_of = ""};
    if (d->tubes[0].samples > 0) one.worst_tube = d->tubes[0].tube, one.worst_share = d->tubes[0].share;
    name_drivers(d, &one.all, order, m);
    const size_t listed = every ? count : 1;
    for (size_t i = 0; i < listed; i++) {
        const bool named = finite && (every || order[i].share > tally_chance(&d->found.tally));
        const frame_tolerance *t = &d->tolerances.list[order[i].place];
        one.all.rank = (int)i;
        one.all.driver = named ? frame_tolerance_column(t) : "";
        one.driver_of = named ? frame_tolerance_name(t, m) : "";
        one.all.driver_share = named ? order[i].share : (double)NAN;
        d->drivers[d->driver_count++] = one;
    }
    free(order);
    return true;
}

static bool make_samples(scatter_data *d, const folder_study *s)
{
    const frame_model *m = &s->build.model;
    const size_t count = (size_t)s->options->samples;
    d->samples = malloc((count + 1) * sizeof *d->samples);
    for (size_t i = 0; i < count && d->samples != NULL; i++) {
        const frame_sample *f = &d->found.samples[i];
        const bool judged = f->status == RBOW_OK, any = judged && f->lowest.lowest.tube < m->tube_count;
        d->samples[i] = (frame_sample_row){
            .sample = (double)s->options->samples_before + (double)i + 1,
            .margin = judged ? f->lowest.lowest.margin : (double)NAN,
            .worst_tube = any ? m->tubes[f->lowest.lowest.tube].name : "",
            .run = any ? m->runs[f->lowest.run].name : "",
            .governs = frame_governs_name(s->problem.details, any ? f->lowest.lowest.governs : RBOW_FRAME_BY_NONE),
            .refused_column = judged ? "" : rbow_status_input(f->status),
            .refused_why = judged ? "" : rbow_status_text(f->status),
        };
    }
    return d->samples != NULL;
}

static bool make_rows(scatter_data *d, const folder_study *s)
{
    const frame_model *m = &s->build.model;
    const options *o = s->options;
    if (!make_tubes(d, m)) return false;
    qsort(d->tubes, m->tube_count, sizeof *d->tubes, more_first);
    if (!make_drivers(d, m, o->drivers)) return false;
    const bool wanted = s->out.format == FORMAT_JSON || (s->out.format == FORMAT_CSV && o->scatter_of == SCATTER_OF_SAMPLES);
    return !wanted || make_samples(d, s);
}

/* ---- the answer --------------------------------------------------------------------------------------------------- */

static scatter_status run_samples(folder_study *s)
{
    scatter_data *d = s->context;
    const options *o = s->options;
    const frame_scatter_question q = {
        .tolerances = d->tolerances.list,
        .count = d->tolerances.count,
        .before = (size_t)o->samples_before,
        .samples = (size_t)o->samples,
        .seed = (unsigned long)o->seed,
        .jobs = o->jobs,
        .go_on = go_on,
        .context = d,
    };
    d->shown = progress_begin_of("the frame", q.samples, "samples");
    const scatter_status status = frame_scatter_run(&s->problem, &q, &d->found);
    progress_end(&d->shown);
    if (status == SCATTER_STOPPED)
        say("%s: stopped after %.0f of %zu samples; no answer is given", s->build.tables.folder, d->found.tally.statistics.samples, q.samples);
    if (status == SCATTER_NO_MEMORY) say("out of memory");
    return status;
}

static int answer(folder_study *s)
{
    scatter_data *d = s->context;
    frame_lowest lowest;
    if (!frame_tolerances_apply(&d->tolerances, &s->build, &s->problem)) return NO_VERDICT;
    const rbow_status given = frame_problem_margin(&s->problem, INFINITY, &lowest);
    if (given != RBOW_OK) {
        if (given == RBOW_NO_MEMORY) say("out of memory");
        else say("%s: %s %s", s->build.tables.folder, rbow_status_input(given), rbow_status_text(given));
        return NO_VERDICT;
    }
    d->nominal = lowest.lowest.margin;
    if (run_samples(s) != SCATTER_OK) return NO_VERDICT;
    if (!make_rows(d, s)) {
        say("out of memory");
        return NO_VERDICT;
    }
    return d->found.tally.shorts > 0 ? SOME_SHORT : ALL_HOLD;
}

static frame_scatter_shown shown_of(const folder_study *s)
{
    const scatter_data *d = s->context;
    return (frame_scatter_shown){
        .rows = d->drivers,
        .count = d->driver_count,
        .tubes = d->tubes,
        .tube_count = s->build.model.tube_count,
        .columns = d->tolerances.count,
        .clocks = d->tolerances.clocks,
        .chance = tally_chance(&d->found.tally),
        .first = (size_t)s->options->samples_before + 1,
        .every_tube = s->options->scatter_of == SCATTER_OF_TUBES,
        .seed = (unsigned)s->options->seed,
    };
}

static void put_text(folder_study *s, text *out, const screen *seen)
{
    const frame_scatter_shown told = shown_of(s);
    frame_scatter_text(out, &told, seen);
}

static void put_page(folder_study *s, text *body, const page_head *head)
{
    const frame_scatter_shown told = shown_of(s);
    page_frame_scatter(body, head, &told);
}

static bool write_tables(folder_study *s)
{
    const scatter_data *d = s->context;
    const answer_table tables[] = {
        [SCATTER_OF_FRAME] = {"frame", &frame_scatter_list, d->drivers, d->driver_count, NULL, NULL},
        [SCATTER_OF_TUBES] = {"tubes", &frame_worst_list, d->tubes, s->build.model.tube_count, NULL, NULL},
        [SCATTER_OF_SAMPLES] = {"samples", &frame_samples_list, d->samples, d->samples != NULL ? (size_t)s->options->samples : 0, NULL, NULL},
    };
    return answer_tables_write(&s->out, tables, sizeof tables / sizeof *tables, (size_t)s->options->scatter_of, NULL, &s->facts, 0);
}

int scatter_frame(const options *o, const char *folder)
{
    scatter_data d = {.drivers = NULL};
    folder_study s = {
        .command = "scatter",
        .title = "Scatter of a frame",
        .context = &d,
        .answer = answer,
        .text = put_text,
        .write = write_tables,
        .page = put_page,
    };
    const int status = frame_tolerances_open(&d.tolerances, o) ? folder_study_run(&s, o, folder) : NO_VERDICT;
    frame_scatter_free(&d.found);
    frame_tolerances_close(&d.tolerances);
    for (size_t i = 0; i < SCATTER_DRIVERS; i++) text_free(&d.names[i]);
    free(d.drivers);
    free(d.tubes);
    free(d.samples);
    return status;
}
