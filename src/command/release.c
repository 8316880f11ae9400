#include "command/commands.h"

#include "command/case_run.h"
#include "command/say.h"
#include "command/shop_table.h"
#include "report/shop_text.h"

static int answer_cut(const case_run *run, const place *at, const void *record, rows *answers, text *complaints)
{
    const cut_row *c = record;
    rbow_cut cut = c->cut;
    rbow_released r;
    const rbow_material *material = materials_for(&run->materials, c->material, cut.wall, at, complaints);
    if (material == NULL) return NO_VERDICT;
    cut.elastic_modulus = material->elastic_modulus;
    const rbow_status status = rbow_release(&cut, &r);
    if (status != RBOW_OK) {
        message_add(complaints, at->file, at->line, rbow_status_input(status), "%s", rbow_status_text(status));
        return NO_VERDICT;
    }
    const release_row answer = {
        .name = c->name,
        .fit_axial = r.fit_axial,
        .shear = r.shear,
        .shear_clock = r.shear_clock,
        .moment_at_cut = r.moment_at_cut,
        .moment_clock = r.moment_clock,
        .moment_a = r.moment_a,
        .moment_b = r.moment_b,
        .fit_stress = r.fit_stress,
        .yield_use = r.fit_stress / material->yield,
        .basis = cut.turned >= 0 ? BASIS_TURN_READ : BASIS_LEAST_ENERGY,
        .miss_a = r.miss_a,
        .miss_a_clock = r.miss_a_clock,
        .miss_b = r.miss_b,
        .miss_b_clock = r.miss_b_clock,
    };
    rows_add(answers, &answer);
    return ALL_HOLD;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    (void)run;
    text t = {0};
    release_text(&t, (const void *)kept->kept, kept->count, *status == NO_VERDICT, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

int command_release(const options *o)
{
    case_run run = {
        .options = o,
        .name = "release",
        .list = &cut_list,
        .results = &release_list,
        .jobs = o->jobs,
        .answer = answer_cut,
        .write = write_text,
    };
    return case_run_all(&run);
}
