/* Words of a command line, cut at line ends, through the options of every command; sizes and measures too. */
#define _GNU_SOURCE /* optind */
#include "feed.h"

#include "command/commands.h"
#include "program/measure.h"

#include <math.h>
#include <getopt.h>

enum { WORDS_MOST = 20 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *line = malloc(size + 1), *words[WORDS_MOST + 1] = {NULL};
    int count = 0;
    options o;
    double value = 0;
    measure m;
    if (line == NULL) abort();
    if (size > 0) memcpy(line, data, size);
    line[size] = '\0';
    char program[] = "check";
    words[count++] = program;
    for (char *word = strtok(line, "\n"); word != NULL && count < WORDS_MOST; word = strtok(NULL, "\n")) words[count++] = word;
    for (size_t i = 0; i < command_count; i++) {
        char *given[WORDS_MOST + 1];
        memcpy(given, words, sizeof given);
        optind = 0; /* glibc: begin anew */
        if (options_read(&o, commands[i].name, commands[i].takes, count, given) && !(o.factor > 0 && isfinite(o.factor) && o.jobs >= 0)) abort();
        options_free(&o);
    }
    for (int i = 1; i < count; i++)
        if (measure_read(words[i], strlen(words[i]), DIM_LENGTH, &m) && measure_in(&m, unit_at(DIM_LENGTH, 1), &value) && !isfinite(value)) abort();
    free(line);
    return 0;
}
