#include "frame/margin.h"

#include "frame/bows.h"
#include "frame/factors.h"

judged rbow_frame_judge(const rbow_frame_run *run, const frame_reached *found, double path_end)
{
    static const int order[FRAME_LIMITS] = {FRAME_COLUMN, FRAME_YIELD, FRAME_INTERACTION};
    static const int names[FRAME_LIMITS] = {[FRAME_COLUMN] = RBOW_FRAME_BY_COLUMN, [FRAME_YIELD] = RBOW_FRAME_BY_YIELD,
                                            [FRAME_INTERACTION] = RBOW_FRAME_BY_INTERACTION};
    judged j = {.margin = INFINITY, .governs_at = NAN, .governs = RBOW_FRAME_BY_NONE};
    double least = INFINITY, lead = INFINITY;
    for (int i = 0; i < FRAME_LIMITS; i++) {
        const int which = order[i];
        const double factor = fmin(found->factor[which], path_end);
        const double ratio = factor / (which == FRAME_YIELD ? factor_yield_of(run) : run->factor);
        j.factor[which] = factor;
        least = fmin(least, ratio);
        if (isinf(ratio) || !(ratio < lead * (1 - 1e-9) || isinf(lead))) continue;
        lead = ratio;
        j.governs = found->factor[which] <= path_end ? names[which] : RBOW_FRAME_BY_FRAME;
        j.governs_at = j.governs == RBOW_FRAME_BY_FRAME ? (double)NAN : found->at[which];
    }
    j.margin = least - 1;
    return j;
}

double rbow_frame_follower_margin(const rbow_frame_run *run, const frame_follower *f, double path_end)
{
    double ratio = INFINITY;
    for (int k = 0; k < LIMITS; k++)
        if (f->has[k]) ratio = fmin(ratio, fmin(f->reached.factor[k], path_end) / (k == FRAME_YIELD ? factor_yield_of(run) : run->factor));
    return ratio - 1;
}

bool rbow_frame_is_forced(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const rbow_frame_tube *t = &s->frame.tubes[i];
        if (t->miss_a > 0 || t->miss_b > 0 || fabs(t->gap) > 0) return true;
    }
    return false;
}

/* Of one path: as built or unforced, with the bows as they are turned. */
static rbow_status lower_on_path(rbow_frame_solver *s, int fit, rbow_frame_lowest *lowest)
{
    double path_end;
    s->fit = fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    s->bows = 1;
    const rbow_status status = rbow_frame_lowest_factors(s, 1 + lowest->margin, &path_end);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < s->frame.tube_count && !s->follows_only; i++) {
        if (!is_judged(s, i)) continue;
        const judged j = rbow_frame_judge(s->run, &s->reached[i], path_end);
        if (!(j.margin < lowest->margin)) continue;
        *lowest = (rbow_frame_lowest){.margin = j.margin, .governs_at = j.governs_at, .tube = i, .governs = j.governs, .fit_taken = fit};
    }
    for (size_t i = 0; i < s->follower_count; i++) {
        const frame_follower *f = &s->followers[i];
        if (!is_judged(s, f->tube)) continue;
        const double margin = rbow_frame_follower_margin(s->run, f, path_end);
        if (!(margin < lowest->margin)) continue;
        *lowest = (rbow_frame_lowest){.margin = margin, .governs_at = f->at, .tube = f->tube, .governs = RBOW_FRAME_GOVERNS_COUNT + (int)i,
                                      .fit_taken = fit};
    }
    return RBOW_OK;
}

/* The followers of s, which is the caller's to set, are judged beside the tubes: the i-th of them governs as RBOW_FRAME_GOVERNS_COUNT + i. */
rbow_status rbow_frame_margin(rbow_frame_solver *s, const rbow_frame_run *run, double most, rbow_frame_lowest *lowest)
{
    *lowest = (rbow_frame_lowest){.margin = most, .governs_at = NAN, .tube = s->frame.tube_count, .governs = RBOW_FRAME_BY_NONE};
    rbow_status status = most > -1 ? rbow_frame_set_run(s, run) : RBOW_OUT_OF_RANGE;
    if (status != RBOW_OK) return status;
    const int sides = rbow_frame_has_open_bow(s) ? 2 : 1, fits = rbow_frame_is_forced(s) ? 2 : 1;
    s->fit = s->bows = 1;
    if (sides == 2) rbow_frame_find_sides(s);
    for (int side = 0; side < sides && status == RBOW_OK; side++) {
        rbow_frame_turn_bows(s, side == 0 ? 1 : -1);
        for (int fit = 0; fit < fits && status == RBOW_OK && lowest->margin > -1; fit++)
            status = lower_on_path(s, fit == 0 ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED, lowest);
    }
    return status;
}

void rbow_frame_judge_only(rbow_frame_solver *s, const bool *tubes)
{
    s->judged = tubes;
}
