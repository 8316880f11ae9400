#include "program/case_check.h"

#include "program/exit_status.h"
#include "program/say.h"
#include "table/messages.h"

enum { FAULTS_MOST = 40 };

void case_refused(text *complaints, const source_line *at, rbow_status status, const char *where)
{
    const char *input = rbow_status_input(status);
    message_add(complaints, at->file, at->line, *input != '\0' ? input : NULL, "%s%s", rbow_status_text(status), where);
}

/* Given:    material  NULL where it is unknown: a stand-in lets the other faults of the row be found as well
 * Returned: whether there are none */
static bool is_faultless(const materials *m, const load_case *c, const rbow_material *material, const source_line *at,
                         text *complaints)
{
    rbow_status faults[FAULTS_MOST];
    const size_t count = rbow_member_faults(&c->member, material != NULL ? material : m->list, faults, FAULTS_MOST);
    for (size_t i = 0; i < count && i < FAULTS_MOST; i++) {
        const bool of_material = faults[i] == RBOW_WALL_RULE || faults[i] == RBOW_DRESSED_RULE;
        if (material != NULL || !of_material) case_refused(complaints, at, faults[i], "");
    }
    return count == 0;
}

const rbow_material *case_material(const materials *m, const load_case *c, const source_line *at, text *complaints)
{
    const rbow_material *material = materials_for(m, c->material, c->member.wall, at, complaints);
    return is_faultless(m, c, material, at, complaints) ? material : NULL;
}

bool case_is_served(const materials *m, const load_case *c, bool varies_wall, const source_line *at, text *complaints)
{
    int known;
    rbow_material_find(m->list, m->count, c->material, c->member.wall, &known);
    return (known && varies_wall)
        || materials_for(m, c->material, c->member.wall, at, complaints) != NULL;
}

bool case_has_own_factor(const load_case *c, const options *o)
{
    return o->factor_given && (c->member.factor < o->factor || c->member.factor > o->factor);
}

void say_own_factors(size_t count, const options *o)
{
    if (count > 0)
        say("--factor %.6g is not used for %zu row%s with a factor of %s own", o->factor, count, count == 1 ? "" : "s",
            count == 1 ? "its" : "their");
}

int check_case(const materials *m, const load_case *c, const source_line *at, checked *answer, text *complaints)
{
    rbow_status status = RBOW_BAD_MATERIAL;
    check_row *r = &answer->row;
    *r = (check_row){.given = *c, .material = materials_for(m, c->material, c->member.wall, at, complaints),
                     .remarks = answer->remarks};
    r->given.part = ""; /* no column of the answer: its text does not outlive the file's row */
    if (r->material != NULL) status = rbow_member_check(&c->member, r->material, &r->result);
    if (status != RBOW_OK) { /* the check names the first fault, or what is none */
        if (is_faultless(m, c, r->material, at, complaints) && r->material != NULL) case_refused(complaints, at, status, "");
        return NO_VERDICT;
    }
    r->taken = rbow_member_taken(&c->member, &r->result);
    remarks_write(answer->remarks, r->result.remarks);
    return r->result.verdict == RBOW_HOLDS ? ALL_HOLD : SOME_SHORT;
}
