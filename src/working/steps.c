#include "working/steps.h"

#include <math.h>
#include <string.h>

/* The array holds every step of the longest working; any further row would replace the last. */
static working_row *next_row(working *w)
{
    if (w->count < WORKING_ROWS_MOST) return &w->rows[w->count++];
    text_free(&w->rows[WORKING_ROWS_MOST - 1].numbers);
    return &w->rows[WORKING_ROWS_MOST - 1];
}

void working_heading(working *w, const char *step, const char *source)
{
    *next_row(w) = (working_row){.step = step, .formula = "", .unit = "", .source = source};
}

static void put_value(char words[NUMBER_ROOM], double value)
{
    if (isnan(value))
        strcpy(words, "-");
    else if (isinf(value))
        strcpy(words, value > 0 ? "no limit" : "-no limit");
    else
        number_write_digits(words, value + 0.0, WORKING_DIGITS);
}

void working_step(working *w, const char *step, const char *formula, const char *numbers, const double values[],
                  size_t count, double result, const char *unit, const char *source)
{
    working_row *r = next_row(w);
    *r = (working_row){.step = step, .formula = formula, .value = result + 0.0, .unit = unit, .source = source};
    size_t used = 0;
    for (const char *at = numbers; *at != '\0'; at++) {
        if (*at != '#' || used == count) {
            text_char(&r->numbers, *at);
            continue;
        }
        char words[NUMBER_ROOM];
        put_value(words, values[used]);
        text_format(&r->numbers, values[used] < 0 && at > numbers ? "(%s)" : "%s", words);
        used++;
    }
    put_value(r->result, result);
}

bool working_failed(const working *w)
{
    bool failed = false;
    for (size_t i = 0; i < w->count; i++) failed = failed || w->rows[i].numbers.failed;
    return failed;
}

void working_free(working *w)
{
    for (size_t i = 0; i < w->count; i++) text_free(&w->rows[i].numbers);
    w->count = 0;
}
