#include "command/checked.h"

#include "command/say.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

_Static_assert((int)VERDICT_SHORT == (int)RBOW_SHORT && (int)GOVERNS_NONE == (int)RBOW_BY_NONE
                   && (int)GOVERNS_YIELD == (int)RBOW_BY_YIELD,
               "the answer's words follow the engine's");

enum { FAULTS_MOST = 40 };

static void complain(text *complaints, const place *at, rbow_status fault)
{
    const char *input = rbow_status_input(fault);
    message_add(complaints, at->file, at->line, *input != '\0' ? input : NULL, "%s", rbow_status_text(fault));
}

/* Given:    material  NULL where it is unknown: a stand-in lets the other faults of the row be found as well
 * Returned: whether there are none */
static bool is_faultless(const materials *m, const load_case *c, const rbow_material *material, const place *at,
                         text *complaints)
{
    rbow_status faults[FAULTS_MOST];
    const size_t count = rbow_member_faults(&c->member, material != NULL ? material : m->list, faults, FAULTS_MOST);
    for (size_t i = 0; i < count && i < FAULTS_MOST; i++) {
        const bool of_material = faults[i] == RBOW_WALL_RULE || faults[i] == RBOW_DRESSED_RULE;
        if (material != NULL || !of_material) complain(complaints, at, faults[i]);
    }
    return count == 0;
}

const rbow_material *case_material(const materials *m, const load_case *c, const place *at, text *complaints)
{
    const rbow_material *material = materials_for(m, c->material, c->member.wall, at, complaints);
    return is_faultless(m, c, material, at, complaints) ? material : NULL;
}

static void say_remarks(char *out, size_t room, unsigned remarks)
{
    size_t length = 0;
    *out = '\0';
    for (int bit = 0; bit < RBOW_REMARK_COUNT; bit++) {
        if ((remarks & (1U << bit)) == 0) continue;
        const int n = snprintf(out + length, room - length, "%s%s", length > 0 ? "; " : "",
                               rbow_remark_text(1U << bit));
        length += (size_t)n;
    }
}

static void fill(checked *answer, const load_case *c, const rbow_result *r)
{
    const rbow_member *m = &c->member;
    say_remarks(answer->remarks, sizeof answer->remarks, r->remarks);
    answer->row = (check_row){
        .name = c->name,
        .od = m->od,
        .wall = m->wall,
        .material = c->material,
        .verdict = r->verdict,
        .margin = r->margin,
        .governs = r->governs,
        .margin_unforced = r->margin_unforced,
        .yield_factor = r->yield_factor,
        .column_factor = r->column_factor,
        .interaction_factor = r->interaction_factor,
        .area = r->section.area,
        .inertia = r->section.inertia,
        .section_modulus = r->section.section_modulus,
        .radius = r->section.radius,
        .weight = r->weight,
        .wall_reduction = r->wall_reduction,
        .critical_load = r->critical_load,
        .effective_length = r->effective_length,
        .slenderness = r->slenderness,
        .column_stress = r->column_stress,
        .column_load = r->column_load,
        .fit_axial = r->fit_axial,
        .fit_moment = r->fit_moment,
        .fit_stress = r->fit_stress,
        .axial = r->axial,
        .peak_moment = r->peak_moment,
        .peak_moment_at = r->peak_moment_at,
        .peak_stress = r->peak_stress,
        .stress_use = r->stress_use,
        .deflection = r->deflection,
        .deflection_clock = r->deflection_clock,
        .remarks = answer->remarks,
        .note = c->note,
        .factor = m->factor,
        .factor_yield = m->factor_yield > 0 ? m->factor_yield : m->factor,
        .length = m->length,
        .governs_at = r->governs_at,
        .governs_in_weld_zone = r->governs_in_weld_zone,
        .runs = r->runs,
        .forced = r->forced,
    };
}

int check_case(const materials *m, const load_case *c, const place *at, checked *answer, text *complaints)
{
    rbow_status status = RBOW_BAD_MATERIAL;
    answer->material = materials_for(m, c->material, c->member.wall, at, complaints);
    if (answer->material != NULL) status = rbow_member_check(&c->member, answer->material, &answer->result);
    if (status != RBOW_OK) { /* the check names the first fault, or what is none */
        if (is_faultless(m, c, answer->material, at, complaints) && answer->material != NULL) complain(complaints, at, status);
        return NO_VERDICT;
    }
    fill(answer, c, &answer->result);
    return answer->result.verdict == RBOW_HOLDS ? ALL_HOLD : SOME_SHORT;
}
