#include "study/member_details.h"

#include "cases/case_words.h"

const char *governs_name(const member_details *d, int governs)
{
    return governs < BY_DETAIL ? governs_words[governs].word : d->at[governs - BY_DETAIL]->name;
}

static void take(rbow_result *to, size_t which, double at, const rbow_detail_result *from)
{
    to->margin = from->margin;
    to->verdict = from->verdict;
    to->governs = BY_DETAIL + (int)which;
    to->governs_at = at;
    to->governs_in_weld_zone = from->in_weld_zone;
    to->joints_taken = from->joints_taken;
    to->fit_taken = from->fit_taken;
    to->bow_clock_taken = from->bow_clock_taken;
    to->miss_a_clock_taken = from->miss_a_clock_taken;
    to->miss_b_clock_taken = from->miss_b_clock_taken;
    to->eccentricity_clock_taken = from->eccentricity_clock_taken;
}

rbow_status details_check(const member_details *d, const rbow_member *member, const rbow_material *material, rbow_result *result,
                          rbow_detail_result *each, size_t *fault)
{
    for (size_t i = 0; d != NULL && i < d->count; i++) {
        rbow_detail_result r;
        const rbow_detail detail = detail_on(d->at[i], member->length);
        const rbow_status status = rbow_detail_check(&detail, member, material, &r);
        if (fault != NULL) *fault = i;
        if (status != RBOW_OK) return status;
        if (each != NULL) each[i] = r;
        if (r.margin < result->margin) take(result, i, detail.at, &r);
    }
    return RBOW_OK;
}

rbow_status details_margin(const member_details *d, const rbow_member *member, const rbow_material *material, rbow_margin *margin)
{
    if (d == NULL || d->count == 0) return RBOW_OK;
    rbow_result r = {.margin = margin->margin, .governs = margin->governs};
    const rbow_status status = details_check(d, member, material, &r, NULL, NULL);
    margin->margin = r.margin;
    margin->governs = r.governs;
    return status;
}
