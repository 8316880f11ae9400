#include "study/cutting.h"

#include <railbow/tube.h>

#include "table/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double same = 1e-6; /* in: sizes that differ by less are one, whatever unit they were written in */

typedef struct cutting { /* one size */
    const cutting_task *task;
    double od, wall, weight; /* lb/in */
    size_t number;           /* from 0 */
    const part_row **parts;  /* that fit a stick, the longest first */
    size_t part_count;
    rbow_piece *pieces; /* one after the other, in the order of the parts */
    const part_row **part_of;
    size_t piece_count;
    rbow_stick *sticks;
    const stock_row **stock_of;
    size_t *number_of; /* of a stick: mill 3 */
    size_t stick_count;
    int *stick_of;
    rbow_cutting plan;
} cutting;

static bool is_size(double od, double wall, double other_od, double other_wall)
{
    return fabs(od - other_od) <= same && fabs(wall - other_wall) <= same;
}

static bool is_stock(const cutting *c, const stock_row *s)
{
    return is_size(c->od, c->wall, s->od, s->wall);
}

/* ---- the parts that fit a stick ------------------------------------------------------------------------------------------------ */

static bool part_fits(const cutting *c, const part_row *p)
{
    bool any = false, long_enough = false;
    double longest = 0, least = NAN;
    for (size_t i = 0; i < c->task->stock_count; i++) {
        const stock_row *s = &c->task->stock[i];
        if (!is_stock(c, s)) continue;
        any = true;
        longest = fmax(longest, s->length);
        if (s->length + 1e-9 < p->length) continue;
        long_enough = true;
        least = fmin(least, rbow_stick_piece_bow(&(rbow_stick){s->length, s->bow}, p->length)); /* passes over NaN */
    }
    const bool straight = isnan(p->bow_most) || least <= p->bow_most * (1 + 1e-12);
    if (any && long_enough && straight) return true;
    c->task->refuse(c->task->context, p, !any ? CUTTING_NO_SIZE : !long_enough ? CUTTING_TOO_LONG : CUTTING_TOO_BOWED,
                    (size_t)p->count, long_enough ? least : longest);
    return false;
}

static int by_length(const void *a, const void *b)
{
    const part_row *x = *(const part_row *const *)a, *y = *(const part_row *const *)b;
    if (x->length > y->length || x->length < y->length) return x->length > y->length ? -1 : 1;
    return (x > y) - (x < y);
}

static bool take_parts(cutting *c, const size_t size_of[])
{
    c->parts = malloc((c->task->part_count + 1) * sizeof *c->parts);
    if (c->parts == NULL) return false;
    for (size_t i = 0; i < c->task->part_count; i++)
        if (size_of[i] == c->number && part_fits(c, &c->task->parts[i])) c->parts[c->part_count++] = &c->task->parts[i];
    qsort(c->parts, c->part_count, sizeof *c->parts, by_length);
    for (size_t i = 0; i < c->part_count; i++) c->piece_count += (size_t)c->parts[i]->count;
    return true;
}

/* ---- pieces and sticks one by one ------------------------------------------------------------------------------------------------ */

static bool list_pieces(cutting *c)
{
    size_t n = 0;
    c->pieces = malloc((c->piece_count + 1) * sizeof *c->pieces);
    c->part_of = malloc((c->piece_count + 1) * sizeof *c->part_of);
    c->stick_of = malloc((c->piece_count + 1) * sizeof *c->stick_of);
    if (c->pieces == NULL || c->part_of == NULL || c->stick_of == NULL) return false;
    for (size_t i = 0; i < c->part_count; i++)
        for (size_t k = 0; k < (size_t)c->parts[i]->count; k++) {
            c->pieces[n] = (rbow_piece){c->parts[i]->length, c->parts[i]->bow_most};
            c->part_of[n++] = c->parts[i];
        }
    return true;
}

/* No row of the stock needs more sticks than there are pieces. */
static size_t useful(const cutting *c, const stock_row *s)
{
    const size_t count = (size_t)s->count;
    return !is_stock(c, s) ? 0 : count < c->piece_count ? count : c->piece_count;
}

/* Sticks of the same name in rows before. */
static size_t named_before(const cutting_task *t, size_t row)
{
    size_t count = 0;
    for (size_t i = 0; i < row; i++)
        if (strcmp(t->stock[i].stick, t->stock[row].stick) == 0) count += (size_t)t->stock[i].count;
    return count;
}

static bool list_sticks(cutting *c)
{
    size_t room = 0;
    const cutting_task *t = c->task;
    for (size_t i = 0; i < t->stock_count; i++) room += useful(c, &t->stock[i]);
    c->sticks = malloc((room + 1) * sizeof *c->sticks);
    c->stock_of = malloc((room + 1) * sizeof *c->stock_of);
    c->number_of = malloc((room + 1) * sizeof *c->number_of);
    if (c->sticks == NULL || c->stock_of == NULL || c->number_of == NULL) return false;
    for (size_t i = 0; i < t->stock_count; i++) {
        const size_t before = useful(c, &t->stock[i]) > 0 ? named_before(t, i) : 0;
        for (size_t k = 0; k < useful(c, &t->stock[i]); k++) {
            c->sticks[c->stick_count] = (rbow_stick){t->stock[i].length, t->stock[i].bow};
            c->stock_of[c->stick_count] = &t->stock[i];
            c->number_of[c->stick_count++] = before + k + 1;
        }
    }
    return true;
}

/* ---- the answer -------------------------------------------------------------------------------------------------------------------- */

static void tell_end(const cutting *c, size_t stick, double pieces, size_t count, stick_row *row)
{
    const double length = c->sticks[stick].length, kerf = c->task->kerf;
    row->remainder = rbow_stick_remainder(length, pieces, count, kerf);
    row->remainder_weight = c->weight * row->remainder;
    row->kerf_weight = c->weight * fmax(0, length - pieces - row->remainder);
}

static bool tell_stick(const cutting *c, size_t stick)
{
    text name = {0};
    size_t count = 0, done = 0;
    double at = 0, pieces = 0;
    bool lost = false;
    for (size_t i = 0; i < c->piece_count; i++) count += c->stick_of[i] == (int)stick;
    if (count == 0) return true;
    text_format(&name, "%s %zu", c->stock_of[stick]->stick, c->number_of[stick]);
    const char *said = text_string(&name, &lost);
    for (size_t i = 0; i < c->piece_count && !lost; i++) {
        if (c->stick_of[i] != (int)stick) continue;
        const double length = c->pieces[i].length, none = NAN;
        stick_row row = {
            .stick = said, .position = (double)++done, .part = c->part_of[i]->part, .od = c->od, .wall = c->wall,
            .cut_from = at, .cut_to = at + length, .bow = rbow_stick_piece_bow(&c->sticks[stick], length),
            .bow_most = c->pieces[i].bow_most, .weight = c->weight * length, .stick_length = c->sticks[stick].length,
            .stick_bow = c->sticks[stick].bow, .remainder = none, .remainder_weight = none, .kerf_weight = none,
            .basis = c->plan.basis, .sticks = c->plan.sticks, .least_sticks = c->plan.least, .size = c->number,
            .pieces = (double)c->piece_count - c->plan.left, .largest = c->plan.remainder,
        };
        pieces += length;
        at = row.cut_to + c->task->kerf;
        if (done == count) tell_end(c, stick, pieces, count, &row);
        c->task->take(c->task->context, &row);
    }
    text_free(&name);
    return !lost;
}

/* The pieces without a stick, part by part. */
static void tell_left(const cutting *c)
{
    size_t from = 0;
    for (size_t i = 0; i < c->part_count; i++) {
        const size_t to = from + (size_t)c->parts[i]->count;
        size_t left = 0;
        for (; from < to; from++) left += c->stick_of[from] == RBOW_NO_STICK;
        if (left > 0) c->task->refuse(c->task->context, c->parts[i], CUTTING_NONE_LEFT, left, NAN);
    }
}

/* Every value was checked as it was read, so that the library refuses none. */
static bool plan_size(cutting *c)
{
    if (c->piece_count == 0) return true;
    if (c->piece_count > CUTTING_PIECES_MOST) {
        for (size_t i = 0; i < c->part_count; i++)
            c->task->refuse(c->task->context, c->parts[i], CUTTING_TOO_MANY, (size_t)c->parts[i]->count, NAN);
        return true;
    }
    if (!list_pieces(c) || !list_sticks(c)) return false;
    void *room = malloc(rbow_sticks_room(c->piece_count, c->stick_count));
    bool fine = room != NULL
        && rbow_sticks_plan(c->pieces, c->piece_count, c->sticks, c->stick_count, c->task->kerf, room, c->stick_of, &c->plan) == RBOW_OK;
    free(room);
    for (size_t i = 0; i < c->stick_count && fine; i++) fine = tell_stick(c, i);
    if (fine) tell_left(c);
    return fine;
}

static bool cut_size(const cutting_task *t, const size_t size_of[], size_t first)
{
    const part_row *p = &t->parts[first];
    cutting c = {.task = t, .od = p->od, .wall = p->wall, .number = size_of[first]};
    rbow_section section;
    if (rbow_section_of(c.od, c.wall, &section) != RBOW_OK) return false;
    c.weight = t->density * section.area;
    const bool fine = take_parts(&c, size_of) && plan_size(&c);
    free(c.parts);
    free(c.pieces);
    free(c.part_of);
    free(c.stick_of);
    free(c.sticks);
    free(c.stock_of);
    free(c.number_of);
    return fine;
}

bool cut_sticks(const cutting_task *t)
{
    size_t sizes = 0;
    bool fine = true;
    size_t *size_of = malloc((t->part_count + 1) * sizeof *size_of), *first = malloc((t->part_count + 1) * sizeof *first);
    fine = size_of != NULL && first != NULL;
    for (size_t i = 0; i < t->part_count && fine; i++) {
        size_t k = 0;
        while (k < sizes && !is_size(t->parts[i].od, t->parts[i].wall, t->parts[first[k]].od, t->parts[first[k]].wall)) k++;
        if (k == sizes) first[sizes++] = i;
        size_of[i] = k;
    }
    for (size_t k = 0; k < sizes && fine; k++) fine = cut_size(t, size_of, first[k]);
    free(size_of);
    free(first);
    return fine;
}
