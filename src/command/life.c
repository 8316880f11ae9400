#include "command/commands.h"

#include "command/frame/life_frame.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/detail/life_parts.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/detail/life_page.h"
#include "report/text/life_text.h"

typedef struct life_data {
    case_run *run;
    curves curves;
    life_parts parts;
    bool answered; /* the parts are whole */
} life_data;

/* A refused row is kept, too: its part has no life without it. */
static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    life_case kept = {.name = c->name, .part = case_part(c), .member = c->member, .cycles = c->cycles, .low = c->cycle_low,
                      .high = c->cycle_high, .file = at->file, .line = at->line};
    kept.material = case_material(&run->materials, c, at, complaints);
    if (!(c->cycle_high > c->cycle_low)) {
        case_refused(complaints, at, RBOW_BAD_CYCLE_HIGH, "");
        kept.material = NULL;
    }
    rows_add(answers, &kept);
    return kept.material != NULL ? ALL_HOLD : NO_VERDICT;
}

static life_told told_of(const life_data *l)
{
    return (life_told){(const void *)l->parts.lives.kept, l->parts.lives.count, l->parts.order, l->curves.file, l->parts.bare,
                       l->parts.bare_count, false, l->run->options->case_count > 0};
}

static bool write_text(const life_data *l, output *out, bool faults)
{
    text t = {0}, words = {0};
    const life_told told = told_of(l);
    const screen s = screen_of(out, faults, &l->run->refused, &words);
    life_text(&t, &told, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

/* Whether the reader refused rows: they may be loads of any part. */
static bool lacks_rows(const case_run *run, const life_case *cases, size_t count)
{
    size_t refused = 0;
    for (size_t i = 0; i < count; i++) refused += cases[i].material == NULL ? 1 : 0;
    return run->refused.count > refused;
}

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    life_data *l = run->state;
    if (run->lost > 0) {
        say("life: no life is given where a file was not read to its end: loads may be missing");
        return false;
    }
    const life_case *cases = (const void *)kept->kept;
    const life_asked asked = {.draws = run->options->report != NULL, .lacking = lacks_rows(run, cases, kept->count), .jobs = run->options->jobs};
    l->answered = life_parts_answer(&l->parts, cases, kept->count, &run->details, &l->curves, asked);
    if (!l->answered) return false;
    l->run->lost += l->parts.failed;
    const bool faults = *status == NO_VERDICT || l->parts.failed > 0 || l->curves.faulty;
    if (faults || life_unknown((const void *)l->parts.lives.kept, l->parts.lives.count) > 0) *status = NO_VERDICT;
    return out->format == FORMAT_TEXT ? write_text(l, out, faults) : rows_write(out, &l->parts.lives);
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const life_data *l = run->state;
    const life_told told = told_of(l);
    text body = {0};
    page_head head = report_head(run, page, status);
    (void)kept;
    if (!l->answered) return false;
    if (head.title == NULL) head.title = "Life of details";
    head.tolerance = life_accuracy;
    page_life(&body, &head, &told);
    return report_write(page, &head, &body);
}

static int life_cases(const options *o)
{
    life_data l = {.curves = {.file = NULL}};
    if (o->details == NULL) {
        say("life: name a table of details with --details FILE: which weld, hole, sleeve or place of which part. Its columns are case, detail, "
            "kind, at and the sizes; see 'railbow help life'");
        return NO_VERDICT;
    }
    int status = NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "life",
        .results = &life_case_list,
        .shown = &life_list,
        .jobs = o->jobs,
        .writes_whole = true,
        .context = &l,
        .state = &l,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    l.run = &run;
    l.parts.lives.list = &life_list;
    if (curves_open(&l.curves, o->curves)) {
        run.curves = l.curves.file;
        run.curves_sha256 = l.curves.sha256;
        status = case_run_all(&run);
    }
    life_parts_free(&l.parts);
    curves_close(&l.curves);
    return status;
}

int command_life(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return life_frame(o, o->operands[i]);
    return life_cases(o);
}
