#include "report/text/release_text.h"

#include "report/caution.h"
#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

static void say_locked(text *out, const release_row *r, const screen *s)
{
    text line = {0};
    put_name(&line, r->name);
    text_put(&line, ": ");
    put_quantity(&line, r->found.fit_stress, DIM_STRESS, s->units, ROUND_NEAREST);
    text_put(&line, r->basis == BASIS_LEAST_ENERGY ? " would explain the movement" : " was locked in");
    text_format(&line, ", %.0f %% of yield: ", 100 * r->yield_use);
    put_quantity(&line, fabs(r->found.fit_axial), DIM_FORCE, s->units, ROUND_NEAREST);
    text_put(&line, r->found.fit_axial > 0 ? " of push" : r->found.fit_axial < 0 ? " of pull" : " along the tube");
    text_put(&line, ", bending ");
    put_quantity(&line, r->found.moment_a, DIM_MOMENT, s->units, ROUND_NEAREST);
    text_put(&line, " at joint A and ");
    put_quantity(&line, r->found.moment_b, DIM_MOMENT, s->units, ROUND_NEAREST);
    text_put(&line, " at joint B; sideways force at the cut ");
    put_quantity(&line, r->found.shear, DIM_FORCE, s->units, ROUND_NEAREST);
    put_clock(&line, r->found.shear_clock);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void say_basis(text *out, const release_row *r, const screen *s)
{
    if (r->basis == BASIS_LEAST_ENERGY) {
        text line = {0};
        text_format(&line, "  %s", unread_angle);
        put_lines(out, &line, 2, s);
    }
    if (r->yield_use > 1)
        put_sentence(out, "  That is MORE THAN YIELD: this answer is elastic, so the tube took a set, or a reading is wrong.", 2, s);
}

static void say_new_rail(text *out, const release_row *r, const screen *s)
{
    text line = {0};
    text_put(&line, "  A straight new rail of this length, with the joints pointing as they did, would miss its landing by ");
    put_length(&line, r->found.miss_a, s->units, ROUND_NEAREST);
    put_clock(&line, r->found.miss_a_clock);
    text_put(&line, " from A's socket (miss_a), and by ");
    put_length(&line, r->found.miss_b, s->units, ROUND_NEAREST);
    put_clock(&line, r->found.miss_b_clock);
    text_put(&line, " from B's (miss_b). Put these into a load case and check it before you force a rail in.");
    put_lines(out, &line, 2, s);
}

void release_text(text *out, const release_row *rows, size_t count, const screen *s)
{
    put_refused(out, s);
    for (size_t i = 0; i < count; i++) {
        if (i > 0) text_char(out, '\n');
        say_locked(out, &rows[i], s);
        say_basis(out, &rows[i], s);
        say_new_rail(out, &rows[i], s);
    }
    put_end(out, s);
}
