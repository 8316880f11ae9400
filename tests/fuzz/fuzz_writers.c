/* Hostile text through the writers: what goes out as CSV comes back through the reader, no cell becomes a formula,
 * JSON and messages stay printable. */
#include "feed.h"

#include "cases/check_table.h"
#include "report/json/json.h"
#include "report/text/check_text.h"
#include "table/messages.h"
#include "table/writer.h"

typedef struct note {
    const char *note, *more;
} note;

static const field note_fields[] = {
    {.name = "note", .kind = FIELD_TEXT, .offset = offsetof(note, note)},
    {.name = "more", .kind = FIELD_TEXT, .offset = offsetof(note, more)},
};
static const field_list note_list = {"note", note_fields, 2, sizeof(note)};

/* The signs with which a formula begins; the full-width ones too. */
static const char *const signs[] = {"=", "+", "-", "@", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0", "\t", "\r"};

static bool begins(const char *cell, const char *sign)
{
    return strncmp(cell, sign, strlen(sign)) == 0;
}

static bool has_sign(const char *cell)
{
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (strstr(cell, signs[i]) != NULL) return true;
    return false;
}

/* Apart from the apostrophe before what could be a formula. */
static bool same_cell(const char *got, const char *given)
{
    return strcmp(got, given) == 0 || (has_sign(given) && *got == '\'' && strcmp(got + 1, given) == 0);
}

static void take_back(const void *record, void *context)
{
    const note *got = record, *given = context;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (begins(got->note, signs[i])) abort();
    if (!same_cell(got->note, given->note) || !same_cell(got->more, given->more)) abort();
}

static bool is_text(const char *s)
{
    text quoted = {0};
    bool plain = strlen(s) < READER_CELL_MOST;
    text_add(&quoted, s, strlen(s));
    if (*s != '\0') text_make_printable(&quoted, 0);
    plain = plain && quoted.length == strlen(s); /* what a reader would have let through */
    text_free(&quoted);
    return plain;
}

static void there_and_back(const char *first, const char *second)
{
    text file = {0};
    note given = {first, second};
    const note prototype = {"", ""};
    text_char(&file, (char)255); /* the length of a piece */
    csv_header(&file, &note_list, UNITS_US);
    csv_row(&file, &note_list, &given, UNITS_US);
    const char blanks[] = " \t";
    const bool blank_at_end = strpbrk(first, blanks) != NULL || strpbrk(second, blanks) != NULL;
    if (!blank_at_end && first[0] != '#')
        feed_table(&note_list, &prototype, (const uint8_t *)file.at, file.length, take_back, &given);
    text_free(&file);
}

static void through_all(const char *first, const char *second)
{
    text out = {0};
    const check_row one = {
        .given = {.name = first, .note = second, .material = second,
                  .member = {.od = 1.25, .wall = 0.05, .factor = 1, .factor_yield = 1, .length = 30}},
        .remarks = first,
        .governs = second,
    };
    text_quote(&out, first, strlen(first));
    message_add(&out, second, 3, "column", "%s", first);
    text_clear(&out);
    for (unit_system units = UNITS_US; units <= UNITS_SI; units++) {
        csv_row(&out, &check_list, &one, units);
        json_row(&out, &check_list, &one, units);
        check_text(&out, &one, 1, NULL, 0, false, &(advice){.count = 0}, &(screen){.width = SCREEN_WIDTH, .units = units, .faults = true});
    }
    text_clear(&out);
    json_row(&out, &check_list, &one, UNITS_US);
    for (size_t i = 0; i < out.length; i++)
        if ((unsigned char)out.at[i] < ' ' && out.at[i] != '\n') abort();
    text_free(&out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *first = malloc(size + 2);
    if (first == NULL) abort();
    if (size > 0) memcpy(first, data, size);
    first[size] = first[size + 1] = '\0';
    const char *second = first + strlen(first) + 1;
    if (second > first + size) second = first + size;
    through_all(first, second);
    if (is_text(first) && is_text(second)) there_and_back(first, second);
    free(first);
    return 0;
}
