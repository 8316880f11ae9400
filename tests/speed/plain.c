/* What plain C needs to read the same file and print as many numbers a row, without any physics: libcsv, strtod and
 * printf("%.10g"). Usage: plain FILE [parse]; with "parse" libcsv alone, with callbacks that do nothing. */
#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBERS_OUT = 30, CELLS_MOST = 64 };

typedef struct row {
    double value[CELLS_MOST];
    size_t cells;
    long rows;
} row;

static void take_cell(void *bytes, size_t length, void *context)
{
    row *r = context;
    (void)length;
    if (r->cells < CELLS_MOST) r->value[r->cells++] = bytes != NULL ? strtod(bytes, NULL) : 0;
}

/* As many numbers as railbow writes, made from those that were read so that none can be skipped. */
static void take_row(int end, void *context)
{
    row *r = context;
    (void)end;
    if (r->rows++ > 0)
        for (int i = 0; i < NUMBERS_OUT; i++)
            printf("%.10g%c", r->value[(size_t)i % r->cells] * (1.0 / 3 + i), i + 1 < NUMBERS_OUT ? ',' : '\n');
    r->cells = 0;
}

static void skip_cell(void *bytes, size_t length, void *context) { (void)bytes, (void)length, (void)context; }
static void skip_row(int end, void *context) { (void)end, (void)context; }

int main(int argc, char **argv)
{
    static char piece[256 * 1024];
    struct csv_parser parser;
    row r = {.cells = 0};
    const int parse = argc > 2 && strcmp(argv[2], "parse") == 0;
    FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
    if (file == NULL || csv_init(&parser, CSV_APPEND_NULL) != 0) return 2;
    for (size_t n; (n = fread(piece, 1, sizeof piece, file)) > 0;)
        if (csv_parse(&parser, piece, n, parse ? skip_cell : take_cell, parse ? skip_row : take_row, &r) != n) return 2;
    csv_fini(&parser, parse ? skip_cell : take_cell, parse ? skip_row : take_row, &r);
    csv_free(&parser);
    return ferror(stdout) != 0;
}
