#include "program/case_check.h"

#include "program/exit_status.h"
#include "program/say.h"
#include "study/member_details.h"
#include "table/messages.h"

#include <string.h>

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

/* ---- details ------------------------------------------------------------------------------------------------ */

static void detail_refused(text *complaints, const load_case *c, size_t detail, rbow_status status)
{
    text name = {0};
    const detail_row *r = c->details->at[detail];
    const char *input = rbow_status_input(status);
    text_quote(&name, c->name, strlen(c->name));
    message_add(complaints, c->details->file, r->line, *input != '\0' ? input : NULL, "%s (on case %s)", rbow_status_text(status),
                text_string(&name, &complaints->failed));
    text_free(&name);
}

bool case_details_fit(const load_case *c, const rbow_material *material, text *complaints)
{
    bool fine = true;
    for (size_t i = 0; c->details != NULL && i < c->details->count; i++) {
        rbow_status faults[FAULTS_MOST];
        const rbow_detail detail = detail_on(c->details->at[i], c->member.length);
        const size_t count = rbow_detail_faults(&detail, &c->member, material, faults, FAULTS_MOST);
        for (size_t k = 0; k < count && k < FAULTS_MOST; k++) detail_refused(complaints, c, i, faults[k]);
        fine = fine && count == 0;
    }
    return fine;
}

detail_answer case_detail_answer(const load_case *c, size_t detail, const rbow_detail_result *each, char remarks[DETAIL_REMARKS_ROOM])
{
    const detail_row *r = c->details->at[detail];
    const rbow_member *m = &c->member;
    detail_remarks_write(remarks, each[detail].remarks);
    return (detail_answer){
        .of = c->name,
        .run = "",
        .name = r->name,
        .note = r->note,
        .remarks = remarks,
        .detail = detail_on(r, m->length),
        .result = each[detail],
        .factor = m->factor,
        .factor_yield = m->factor_yield > 0 ? m->factor_yield : m->factor,
        .length = m->length,
    };
}

/* Lowers the row to its weakest detail. */
static bool add_details(const load_case *c, check_row *r, rbow_detail_result *each, text *complaints)
{
    char remarks[DETAIL_REMARKS_ROOM];
    size_t fault = 0;
    if (c->details == NULL || c->details->count == 0) return true;
    const rbow_status status = details_check(c->details, &c->member, r->material, &r->result, each, &fault);
    if (status != RBOW_OK) {
        if (case_details_fit(c, r->material, complaints)) detail_refused(complaints, c, fault, status);
        return false;
    }
    r->governs = governs_name(c->details, r->result.governs);
    if (r->result.governs < BY_DETAIL) return true;
    const detail_answer d = case_detail_answer(c, (size_t)(r->result.governs - BY_DETAIL), each, remarks);
    r->detail = governing_detail_of(&d);
    r->result.governs = RBOW_BY_NONE;
    return true;
}

/* ---- the check ---------------------------------------------------------------------------------------------- */

/* The name of the part where it has details, as their table has it; else "". */
static const char *lasting_part(const load_case *c)
{
    const size_t count = c->details != NULL ? c->details->count : 0;
    return count > 0 ? c->details->at[count - 1]->of : "";
}

int check_case(const materials *m, const load_case *c, const source_line *at, checked *answer, rbow_detail_result *each, text *complaints)
{
    rbow_status status = RBOW_BAD_MATERIAL;
    check_row *r = &answer->row;
    *r = (check_row){.given = *c, .material = materials_for(m, c->material, c->member.wall, at, complaints),
                     .remarks = answer->remarks};
    r->given.part = lasting_part(c); /* no column of the answer: its text does not outlive the file's row; nor do its details */
    r->given.details = NULL;
    if (r->material != NULL) status = rbow_member_check(&c->member, r->material, &r->result);
    if (status != RBOW_OK) { /* the check names the first fault, or what is none */
        if (is_faultless(m, c, r->material, at, complaints) && r->material != NULL) case_refused(complaints, at, status, "");
        return NO_VERDICT;
    }
    r->tube = r->result;
    r->taken = rbow_member_taken(&c->member, &r->result);
    r->governs = governs_name(NULL, r->result.governs);
    remarks_write(answer->remarks, r->result.remarks);
    if (!add_details(c, r, each, complaints)) return NO_VERDICT;
    return r->result.verdict == RBOW_HOLDS ? ALL_HOLD : SOME_SHORT;
}
