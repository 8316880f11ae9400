#include "table/reader_advice.h"

#include "table/names.h"
#include "table/number.h"
#include "table/shop_length.h"

#include <string.h>

/* The number that the cell begins with, and the word behind it. */
typedef struct number_and_word {
    double number;
    const char *word;
    size_t word_length;
} number_and_word;

static bool split(const char *cell, size_t n, number_and_word *found)
{
    size_t digits = strspn(cell, "+-.0123456789");
    if (digits > n || !number_read(cell, digits, &found->number)) return false;
    while (digits < n && cell[digits] == ' ') digits++;
    found->word = cell + digits;
    found->word_length = n - digits;
    return true;
}

static bool is_one_of(const char *word, size_t n, const char *const names[])
{
    for (; *names != NULL; names++)
        if (name_is(*names, word, n)) return true;
    return false;
}

static bool is_formula_error(const char *cell, size_t n)
{
    static const char *const errors[] = {"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#SPILL!",
                                         "#CALC!", NULL};
    return is_one_of(cell, n, errors) || strncmp(cell, "Err:", 4) == 0;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* Whether one of its words is a month, cut to three letters or more. */
static bool has_month(const char *cell, size_t n)
{
    static const char *const months[] = {"january", "february", "march", "april", "may", "june", "july", "august",
                                         "september", "october", "november", "december"};
    for (size_t from = 0, end; from < n; from = end + 1) {
        for (end = from; end < n && is_letter(cell[end]); end++) continue;
        for (size_t k = 0; end - from >= 3 && k < sizeof months / sizeof *months; k++) {
            char start[16] = "";
            if (strlen(months[k]) >= end - from && name_is(memcpy(start, months[k], end - from), cell + from, end - from))
                return true;
        }
    }
    return false;
}

/* 16-Jan, Jan-16, 1/16/2026, 2026-01-16, 16.01.2026 */
static bool is_date(const char *cell, size_t n)
{
    size_t parts = 1;
    char sign = '\0';
    if (strpbrk(cell, "0123456789") != NULL && strspn(cell, "0123456789-./ abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") == n
        && has_month(cell, n))
        return true;
    if (*cell < '0' || *cell > '9') return false;
    for (size_t i = 0; i < n; i++) {
        if (cell[i] >= '0' && cell[i] <= '9') continue;
        const bool parts_it = strchr("-/.", cell[i]) != NULL && (sign == '\0' || cell[i] == sign) && i > 0 && i + 1 < n;
        if (!parts_it || cell[i - 1] == sign) return false;
        sign = cell[i];
        parts++;
    }
    return parts == 3 && n >= 6;
}

static bool advise_date(reader *r, const file_column *c, const char *cell, size_t n)
{
    if (!is_date(cell, n)) return false;
    reader_refuse(r, c, "%s is a date, which a spreadsheet makes of a fraction: type the number as a decimal, 1/16 as 0.0625, in "
                  "a cell formatted as text", reader_quote(r, cell, n));
    return true;
}

static bool advise_percent(reader *r, const file_column *c, const char *cell, size_t n)
{
    char digits[NUMBER_ROOM];
    number_and_word found;
    if (!split(cell, n, &found) || found.word_length != 1 || *found.word != '%') return false;
    number_write(digits, found.number / 100);
    if (c->field->dimension == DIM_NONE)
        reader_refuse(r, c, "%s is not a number: write %s without the percent sign", reader_quote(r, cell, n), digits);
    else reader_refuse(r, c, "%s is not a number: a percentage has no meaning here", reader_quote(r, cell, n));
    return true;
}

static bool advise_gauge(reader *r, const file_column *c, const char *cell, size_t n)
{
    static const char *const words[] = {"ga", "ga.", "gauge", "gage", "swg", "bwg", "awg", NULL};
    number_and_word found;
    const bool numbered = *cell == '#' && n > 1 && strspn(cell + 1, "0123456789") == n - 1;
    if (!numbered && !(split(cell, n, &found) && is_one_of(found.word, found.word_length, words))) return false;
    reader_refuse(r, c, "%s is a gauge number, which differs between tables: write the thickness as a length, such as 0.058 in a "
                  "column in inches", reader_quote(r, cell, n));
    return true;
}

static bool advise_thou(reader *r, const file_column *c, const char *cell, size_t n)
{
    static const char *const words[] = {"thou", "thousandths", "mil", "mils", NULL};
    char digits[NUMBER_ROOM];
    number_and_word found;
    if (!split(cell, n, &found) || !is_one_of(found.word, found.word_length, words)) return false;
    number_write(digits, found.number / 1000);
    reader_refuse(r, c, "%s is not a number: write %s in a column in inches", reader_quote(r, cell, n), digits);
    return true;
}

/* A fraction or a mark where the column is not in inches or feet. */
static bool advise_fraction(reader *r, const file_column *c, const char *cell, size_t n)
{
    char digits[NUMBER_ROOM];
    shop_length length;
    const char *shown = reader_quote(r, cell, n);
    if (shop_length_read(cell, n, &length)) {
        number_write(digits, length.value);
        if (length.is_marked)
            reader_refuse(r, c, "%s is not a number: feet and inches are allowed only in a column whose unit is in or ft; in inches it is %s",
                          shown, digits);
        else if (c->unit != NULL)
            reader_refuse(r, c, "%s is not a number: fractions are allowed only in a column whose unit is in or ft; as a decimal it is %s, and "
                          "this column is in %s", shown, digits, c->unit->name);
        else reader_refuse(r, c, "%s is not a number: write the fraction as a decimal, %s", shown, digits);
    } else if (memchr(cell, '/', n) != NULL || strstr(cell, "\xE2\x81\x84") != NULL) {
        reader_refuse(r, c, "%s is not a number: a fraction must be less than 1, with a denominator of 2, 4, 8, 16, 32, 64 or 128; or "
                      "write a decimal", shown);
    } else if (n > 1 && (cell[n - 1] == '"' || cell[n - 1] == '\'')) {
        reader_refuse(r, c, "%s is not a number: write it as a decimal; the unit stands in the header", shown);
    } else {
        return false;
    }
    return true;
}

/* 1 250, 1'250: digits in groups of three. */
static bool advise_groups(reader *r, const file_column *c, const char *cell, size_t n)
{
    static const char *const gaps[] = {" ", "'", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "\xE2\x80\x99"};
    text whole = {0};
    bool grouped = false;
    for (size_t i = 0; i < n;) {
        size_t gap = 0;
        for (size_t k = 0; k < sizeof gaps / sizeof *gaps; k++)
            if (i > 0 && n - i > strlen(gaps[k]) && memcmp(cell + i, gaps[k], strlen(gaps[k])) == 0) gap = strlen(gaps[k]);
        grouped |= gap > 0;
        if (gap > 0 && strspn(cell + i + gap, "0123456789") != 3) break;
        if (gap == 0) text_char(&whole, cell[i]);
        i += gap > 0 ? gap : 1;
        if (i >= n && grouped && whole.at != NULL && number_is_written(whole.at, whole.length)) {
            reader_refuse(r, c, "%s is not a number: leave nothing between the digits, as in %s", reader_quote(r, cell, n),
                          whole.at);
            text_free(&whole);
            return true;
        }
    }
    r->said.failed |= whole.failed;
    text_free(&whole);
    return false;
}

bool reader_advise(reader *r, const file_column *c, const char *cell, size_t n)
{
    if (is_formula_error(cell, n)) {
        reader_refuse(r, c, "%s is a formula that failed in the spreadsheet: put a number there, or leave the cell empty",
                      reader_quote(r, cell, n));
        return true;
    }
    return advise_groups(r, c, cell, n) || advise_date(r, c, cell, n) || advise_percent(r, c, cell, n)
        || advise_gauge(r, c, cell, n) || advise_thou(r, c, cell, n) || advise_fraction(r, c, cell, n);
}
