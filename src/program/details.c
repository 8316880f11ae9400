#include "program/details.h"

#include "program/exit_status.h"
#include "program/pipeline.h"
#include "program/say.h"
#include "table/messages.h"
#include "table/names.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- reading ------------------------------------------------------------------------------------------------ */

static int keep_detail(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    detail_row r = *(const detail_row *)record;
    bool missing;
    const field *f = detail_size_fault(&r, &missing);
    (void)context;
    r.line = at->line;
    if (fabs(r.rosettes - round(r.rosettes)) > 0)
        message_add(complaints, at->file, at->line, "rosettes", "must be a whole number");
    else if (f != NULL && missing)
        message_add(complaints, at->file, at->line, f->name, "a %s %sneeds it", rbow_detail_kind_name(r.detail.kind),
                    strcmp(f->name, "rosette") == 0 ? "with rosettes " : "");
    else if (f != NULL)
        message_add(complaints, at->file, at->line, f->name, "a %s has none: leave it empty, or is the kind right?",
                    rbow_detail_kind_name(r.detail.kind));
    else {
        rows_add(answers, &r);
        return ALL_HOLD;
    }
    return NO_VERDICT;
}

static bool read_table(details *d)
{
    output memory = {.format = FORMAT_TEXT}; /* nothing is written: the rows are kept */
    detail_row prototype;
    d->rows = rows_for(&memory, d->list);
    field_defaults(d->list, &prototype);
    const pipeline p = {
        .list = d->list,
        .prototype = &prototype,
        .results = d->list,
        .jobs = 1,
        .out = &memory,
        .kept = &d->rows,
        .answer = keep_detail,
    };
    char *file[] = {(char *)d->file};
    return pipeline_run(&p, file, 1) == ALL_HOLD;
}

static int by_place(const void *a, const void *b)
{
    const detail_row *x = *(const detail_row *const *)a, *y = *(const detail_row *const *)b;
    const int order = strcmp(x->of, y->of);
    return order != 0 ? order : (x->line > y->line) - (x->line < y->line);
}

typedef struct detail_guess { /* the nearest name so far; "" for none */
    char name[NAME_LETTERS_MOST + 1];
    size_t changes;
} detail_guess;

struct detail_guesses { /* of each of the sorted details */
    atomic_flag busy; /* held while a name is compared */
    detail_guess at[];
};

static struct detail_guesses *guesses_of(size_t count)
{
    struct detail_guesses *g = calloc(1, sizeof *g + count * sizeof *g->at);
    if (g != NULL) atomic_flag_clear(&g->busy);
    return g;
}

static bool sort_rows(details *d)
{
    d->count = d->rows.count;
    d->sorted = malloc((d->count + 1) * sizeof *d->sorted);
    d->met = calloc(d->count + 1, sizeof *d->met);
    d->guesses = guesses_of(d->count);
    if (d->sorted == NULL || d->met == NULL || d->guesses == NULL) {
        say("out of memory");
        return false;
    }
    for (size_t i = 0; i < d->count; i++) d->sorted[i] = (const detail_row *)(const void *)d->rows.kept + i;
    qsort(d->sorted, d->count, sizeof *d->sorted, by_place);
    return true;
}

/* Returned: false after a message for each detail whose name another one on its tube has. */
static bool names_differ(const details *d)
{
    bool fine = true;
    for (size_t i = 0; i < d->count; i++)
        for (size_t k = i; k > 0 && strcmp(d->sorted[k - 1]->of, d->sorted[i]->of) == 0; k--) {
            if (strcmp(d->sorted[k - 1]->name, d->sorted[i]->name) != 0) continue;
            text complaint = {0}, name = {0};
            text_quote(&name, d->sorted[i]->name, strlen(d->sorted[i]->name));
            message_add(&complaint, d->file, d->sorted[i]->line, "detail", "%s stands in line %zu too: a detail of a tube needs a name of its own",
                        text_string(&name, &complaint.failed), d->sorted[k - 1]->line);
            if (!complaint.failed) say_lines(complaint.at);
            else say("out of memory");
            text_free(&name);
            text_free(&complaint);
            fine = false;
        }
    return fine;
}

bool details_open(details *d, const char *file, const field_list *list)
{
    *d = (details){.file = file, .list = list};
    if (file == NULL) return true;
    const bool whole = read_table(d);
    if (whole) return sort_rows(d) && names_differ(d);
    say("%s: no tube is checked until its details are mended: one that is left out would make its tube look stronger", file);
    return false;
}

void details_close(details *d)
{
    if (d->rows.list != NULL) rows_free(&d->rows);
    free(d->sorted);
    free(d->met);
    free(d->guesses);
    *d = (details){.file = NULL};
}

/* ---- asking ------------------------------------------------------------------------------------------------- */

static size_t first_of(const details *d, const char *name)
{
    size_t low = 0, high = d->count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (strcmp(d->sorted[middle]->of, name) < 0) low = middle + 1;
        else high = middle;
    }
    return low;
}

static bool is_of(const details *d, size_t i, const char *name)
{
    return i < d->count && strcmp(d->sorted[i]->of, name) == 0;
}

static size_t meet(const details *d, const char *name)
{
    const size_t first = first_of(d, name);
    size_t i = first;
    for (; is_of(d, i, name); i++) atomic_store_explicit(&d->met[i], true, memory_order_relaxed);
    return i - first;
}

size_t details_meet(const details *d, const char *name, const char *part)
{
    return meet(d, name) + (strcmp(name, part) == 0 ? 0 : meet(d, part));
}

/* Among equally near names the first of the alphabet stays, whatever the order in which they come. */
static void guess(detail_guess *g, const char *of, const char *name)
{
    nearest_name near = nearest_to(of);
    if (*g->name != '\0') near.changes = g->changes + 1;
    nearest_try(&near, name);
    if (near.best == NULL || (*g->name != '\0' && near.changes == g->changes && strcmp(name, g->name) >= 0)) return;
    strcpy(g->name, name);
    g->changes = near.changes;
}

void details_guess(const details *d, const char *name, const char *part)
{
    while (atomic_flag_test_and_set(&d->guesses->busy)) continue;
    for (size_t i = 0; i < d->count; i++) {
        if (atomic_load_explicit(&d->met[i], memory_order_relaxed)) continue;
        guess(&d->guesses->at[i], d->sorted[i]->of, name);
        guess(&d->guesses->at[i], d->sorted[i]->of, part);
    }
    atomic_flag_clear(&d->guesses->busy);
}

void details_pick(const details *d, const char *name, const char *part, const detail_row **picked)
{
    for (size_t i = first_of(d, name); is_of(d, i, name); i++) *picked++ = d->sorted[i];
    for (size_t i = first_of(d, part); strcmp(name, part) != 0 && is_of(d, i, part); i++) *picked++ = d->sorted[i];
}

bool details_all_met(const details *d, const char *where)
{
    bool all = true;
    text complaint = {0};
    for (size_t i = 0; i < d->count; i++) {
        if (atomic_load(&d->met[i])) continue;
        const char *near = d->guesses->at[i].name;
        text words = {0};
        text_quote(&words, d->sorted[i]->of, strlen(d->sorted[i]->of));
        text_format(&words, " is not in %s", where);
        if (*near != '\0') {
            text_put(&words, "; did you mean ");
            text_quote(&words, near, strlen(near));
            text_char(&words, '?');
        }
        message_add(&complaint, d->file, d->sorted[i]->line, d->list->fields[0].name, "%s", text_string(&words, &complaint.failed));
        text_free(&words);
        all = false;
    }
    if (complaint.failed) say("out of memory");
    else if (!all) say_lines(complaint.at);
    text_free(&complaint);
    return all;
}
