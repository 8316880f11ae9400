/* The rows of tests/detail/published.csv, and their numbers with units. */
#ifndef TESTS_DETAIL_PUBLISHED_ROWS_H
#define TESTS_DETAIL_PUBLISHED_ROWS_H

#include "curves.h"

enum { QUANTITY, INPUTS, VALUE, TOLERANCE, TITLE, EDITION, PLACE, STANDING, REMARK, CELLS, ROWS_MOST = 400 };

typedef struct printed {
    char text[600];
    const char *cell[CELLS];
} printed;

typedef struct table {
    printed rows[ROWS_MOST];
    int count;
} table;

/* Cells part at commas outside quotes. */
static inline void split(printed *r)
{
    char *to = r->text, *from = r->text;
    bool quoted = false;
    int n = 0;
    r->cell[n++] = to;
    for (; *from != '\0' && *from != '\n'; from++) {
        if (*from == '"') {
            quoted = !quoted;
        } else if (*from == ',' && !quoted) {
            *to++ = '\0';
            ck_assert_int_lt(n, CELLS);
            r->cell[n++] = to;
        } else {
            *to++ = *from;
        }
    }
    *to = '\0';
    ck_assert_int_eq(n, CELLS);
}

static inline void read_published(table *t)
{
    FILE *file = fopen(SOURCE_DIR "/tests/detail/published.csv", "r");
    bool header = true;
    ck_assert_ptr_nonnull(file);
    t->count = 0;
    while (t->count < ROWS_MOST && fgets(t->rows[t->count].text, sizeof t->rows->text, file) != NULL) {
        printed *r = &t->rows[t->count];
        ck_assert_msg(strchr(r->text, '\n') != NULL, "row '%.60s' is too long", r->text);
        if (*r->text == '#') continue;
        if (!header) split(r);
        if (!header) t->count++;
        header = false;
    }
    ck_assert_int_lt(t->count, ROWS_MOST);
    fclose(file);
}

/* In inch, pound-force and psi. */
static inline double unit_of(const char *name)
{
    static const double mm = 1 / 25.4, newton = 1 / 4.4482216152605, mpa = 145.03773773020923;
    const struct {
        const char *name;
        double factor;
    } units[] = {{"", 1}, {"in", 1}, {"in^2", 1}, {"in^3", 1}, {"in^4", 1}, {"mm", mm}, {"lbf", 1}, {"kip", 1000}, {"N", newton}, {"kN", 1000 * newton},
                 {"psi", 1}, {"ksi", 1000}, {"MPa", mpa}, {"in-lbf", 1}, {"lbf/in", 1}};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strcmp(units[i].name, name) == 0) return units[i].factor;
    ck_abort_msg("unit '%s'", name);
    return NAN;
}

/* "60 mm", up to a semicolon. */
static inline double number_of(const char *words)
{
    char *end, unit[20] = "";
    const double value = strtod(words, &end);
    ck_assert_msg(end > words, "number '%s'", words);
    if (*end == ' ') sscanf(end, " %19[^;]", unit);
    return value * unit_of(unit);
}

/* Where the value of an input begins; NULL where there is none. */
static inline const char *input_at(const printed *r, const char *name)
{
    const size_t n = strlen(name);
    for (const char *at = r->cell[INPUTS]; at != NULL && *at != '\0'; at = strchr(at, ';')) {
        at += strspn(at, "; ");
        if (strncmp(at, name, n) == 0 && at[n] == '=') return at + n + 1;
    }
    return NULL;
}

static inline double in(const printed *r, const char *name)
{
    const char *at = input_at(r, name);
    ck_assert_msg(at != NULL, "%s needs %s", r->cell[QUANTITY], name);
    return number_of(at);
}

static inline double in_or(const printed *r, const char *name, double otherwise)
{
    return input_at(r, name) != NULL ? in(r, name) : otherwise;
}

#endif
