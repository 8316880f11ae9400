/* What plain C needs to read the same file and to write rows like those of check, without any physics: libcsv, strtod
 * and printf("%.10g"). Usage: plain FILE [parse]; with "parse" libcsv alone, with callbacks that do nothing. */
#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Columns of the file that are words, and of the answer: case, material, verdict, governs, joints_taken, fit_taken, remarks
 * and note, some of them empty. The runner prints how many cells of each kind come out, here and from check. */
enum { CASE = 0, MATERIAL = 3, END_A = 5, END_B = 6, CELLS = 16, NUMBERS_OUT = 32, ROOM = 64 };

typedef struct row {
    char word[CELLS][ROOM];
    double value[CELLS];
    size_t cells;
    long rows;
} row;

static int is_word(size_t column)
{
    return column == CASE || column == MATERIAL || column == END_A || column == END_B;
}

static void take_cell(void *bytes, size_t length, void *context)
{
    row *r = context;
    if (r->cells >= CELLS || length >= ROOM) exit(2);
    if (is_word(r->cells)) memcpy(r->word[r->cells], bytes, length + 1);
    else r->value[r->cells] = strtod(bytes, NULL);
    r->cells++;
}

/* Made from one that was read, so that none can be skipped; the rows come out about as long as those of check. */
static void put_number(const row *r, int i)
{
    static const int numbers[] = {1, 2, 4, 7, 8, 9, 10, 11, 12, 13, 14, 15};
    printf(",%.10g", r->value[numbers[i % 12]] * (1.0 / 3 + i));
}

static void take_row(int end, void *context)
{
    row *r = context;
    (void)end;
    r->cells = 0;
    if (r->rows++ == 0) return;
    printf("%s", r->word[CASE]);
    for (int i = 0; i < 2; i++) put_number(r, i);
    printf(",%s,%s", r->word[MATERIAL], r->word[END_A]);
    put_number(r, 2);
    printf(",%s", r->word[END_B]);
    for (int i = 3; i < NUMBERS_OUT; i++) put_number(r, i);
    printf(",,,%s,,\n", r->word[END_A]);
}

static void skip_cell(void *bytes, size_t length, void *context) { (void)bytes, (void)length, (void)context; }
static void skip_row(int end, void *context) { (void)end, (void)context; }

int main(int argc, char **argv)
{
    static char piece[256 * 1024];
    static row r;
    struct csv_parser parser;
    const int parse = argc > 2 && strcmp(argv[2], "parse") == 0;
    FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
    if (file == NULL || csv_init(&parser, CSV_APPEND_NULL) != 0) return 2;
    for (size_t n; (n = fread(piece, 1, sizeof piece, file)) > 0;)
        if (csv_parse(&parser, piece, n, parse ? skip_cell : take_cell, parse ? skip_row : take_row, &r) != n) return 2;
    csv_fini(&parser, parse ? skip_cell : take_cell, parse ? skip_row : take_row, &r);
    csv_free(&parser);
    return ferror(stdout) != 0;
}
