#define _GNU_SOURCE /* getopt_long */
#include "program/options.h"

#include "program/inputs.h"
#include "program/option_list.h"
#include "program/say.h"
#include "report/lines.h"
#include "report/live/live.h"
#include "table/names.h"
#include "table/text.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool is_taken(const option_entry *e, unsigned takes)
{
    return e->of == 0 || (takes & e->of) != 0;
}

static void put_option(text *out, const option_entry *e)
{
    text_put(out, "  ");
    if (e->letter != 0) text_format(out, "-%c, ", e->letter);
    text_format(out, "--%s", e->name);
    if (e->value != NULL) text_format(out, " %s", e->value);
}

/* Of what put_option writes; worked out, so that it holds even when memory runs out. */
static size_t option_width(const option_entry *e)
{
    const size_t letter = e->letter != 0 ? strlen("-o, ") : 0, value = e->value != NULL ? 1 + strlen(e->value) : 0;
    return strlen("  --") + letter + strlen(e->name) + value;
}

void options_say(text *out, unsigned takes, size_t width)
{
    size_t widest = 0;
    for (size_t i = 0; i < OPTION_ENTRIES; i++)
        if (is_taken(&option_entries[i], takes) && option_width(&option_entries[i]) > widest) widest = option_width(&option_entries[i]);
    for (size_t i = 0; i < OPTION_ENTRIES; i++) {
        if (!is_taken(&option_entries[i], takes)) continue;
        text line = {0};
        put_option(&line, &option_entries[i]);
        text_format(&line, "%*s%s", (int)(widest + 2 - option_width(&option_entries[i])), "", option_entries[i].meaning);
        wrap(out, text_string(&line, &out->failed), widest + 2, width);
        text_free(&line);
    }
}

bool options_at(unsigned takes, size_t i, option_shown *shown)
{
    for (size_t k = 0; k < OPTION_ENTRIES; k++) {
        const option_entry *e = &option_entries[k];
        if (!is_taken(e, takes) || i-- > 0) continue;
        *shown = (option_shown){e->name, e->letter, e->value, e->meaning};
        return true;
    }
    return false;
}

/* getopt's tables for one command. */
static void fill_tables(unsigned takes, struct option longs[OPTION_ENTRIES + 1], char letters[2 * OPTION_ENTRIES + 2])
{
    size_t count = 0;
    *letters++ = ':'; /* a missing value is told apart from an unknown option */
    for (size_t i = 0; i < OPTION_ENTRIES; i++) {
        if (!is_taken(&option_entries[i], takes)) continue;
        longs[count++] = (struct option){.name = option_entries[i].name,
                                         .has_arg = option_entries[i].value == NULL       ? no_argument
                                             : option_may_stand_alone(&option_entries[i]) ? optional_argument
                                                                             : required_argument,
                                         .val = (int)i + 256};
        if (option_entries[i].letter == 0) continue;
        *letters++ = option_entries[i].letter;
        if (option_entries[i].value != NULL) *letters++ = ':';
    }
    longs[count] = (struct option){0};
    *letters = '\0';
}

static const option_entry *entry_of(int got)
{
    if (got >= 256) return &option_entries[got - 256];
    for (size_t i = 0; i < OPTION_ENTRIES; i++)
        if (option_entries[i].letter == got) return &option_entries[i];
    return NULL;
}

/* The option of the command nearest to a word "--name=..."; NULL where none is near. */
static const char *nearest_option(unsigned takes, const char *word)
{
    char name[64];
    if (strncmp(word, "--", 2) != 0) return NULL;
    const size_t length = strcspn(word + 2, "=");
    if (length >= sizeof name) return NULL;
    memcpy(name, word + 2, length);
    name[length] = '\0';
    nearest_name n = nearest_to(name);
    for (size_t i = 0; i < OPTION_ENTRIES; i++) {
        if (strcmp(option_entries[i].name, name) == 0) return NULL; /* another command's */
        if (is_taken(&option_entries[i], takes)) nearest_try(&n, option_entries[i].name);
    }
    return n.best;
}

static void refuse_option(const char *command, unsigned takes, int got, const char *word)
{
    const char *nearest = got == '?' && optopt == 0 ? nearest_option(takes, word) : NULL;
    if (nearest != NULL) {
        say("%s: option '%s' is not known here; did you mean '--%s'?", command, word, nearest);
        return;
    }
    const char letter[] = {'-', (char)optopt, '\0'}; /* its word may hold more letters */
    const bool is_letter = optopt > 0 && optopt < 256, is_known = optopt >= 256;
    say("%s: option '%s' %s; see 'railbow help %s'", command, is_letter ? letter : word,
        got == ':' ? "needs a value" : is_known ? "takes no value" : "is not known here", command);
}

/* Whether an option changes numbers, not only where or how fast they are written. */
static bool bears_on_answer(const option_entry *e)
{
    return e->of != TAKES_REPORT && e->of != TAKES_SHEETS && e->of != TAKES_VIEW && e->of != TAKES_JOBS && strcmp(e->name, "output") != 0 && strcmp(e->name, "format") != 0
        && strcmp(e->name, "help") != 0;
}

/* A size that stands apart among the files was meant for the list before it. */
static bool has_stray_size(const options *o)
{
    const char *option = o->walls != NULL ? "walls" : "ods";
    for (int i = 0; i < o->operand_count && (o->walls != NULL || o->ods != NULL); i++) {
        if (!option_is_list(o->operands[i]) || access(o->operands[i], F_OK) == 0) continue;
        say("--%s: '%s' stands apart from the list: part the sizes with commas and no blanks, as in 0.058,0.065", option,
            o->operands[i]);
        return true;
    }
    return false;
}

static bool can_be_live(const options *o, const char *command)
{
    if (!live_is_built()) {
        say("%s: --live: this program was built without the engine of the live page; 'sh cases/page' builds one that has it", command);
        return false;
    }
    for (int i = 0; i < o->operand_count; i++) {
        if (strcmp(o->operands[i], "-") != 0) continue;
        say("%s: --live: the inputs go into the page: name a file, not stdin", command);
        return false;
    }
    return true;
}

/* Options that mean nothing without another. */
static bool is_sound(const options *o, const char *command)
{
    if (o->report != NULL) input_digests_wanted();
    const bool of_page[] = {o->title != NULL, o->by != NULL, o->note != NULL, o->date != NULL, o->working, o->pages_given, o->view_given};
    const char *const names[] = {"title", "by", "note", "date", "working", "pages", "view"};
    for (size_t i = 0; i < sizeof names / sizeof *names && o->report == NULL && !o->help; i++) {
        if (!of_page[i]) continue;
        say("%s: --%s stands on the page, but --report names none", command, names[i]);
        return false;
    }
    if (o->live && o->report == NULL && !o->help) {
        say("%s: --live puts the engine into the page, but --report names none", command);
        return false;
    }
    if (o->live && !o->help && !can_be_live(o, command)) return false;
    return o->help || !has_stray_size(o);
}

static void say_word(options *o, const char *word)
{
    o->said[o->said_count++] = word;
}

bool options_read(options *o, const char *command, unsigned takes, int argc, char **argv)
{
    struct option longs[OPTION_ENTRIES + 1];
    char letters[2 * OPTION_ENTRIES + 2];
    fill_tables(takes, longs, letters);
    *o = (options){.material = "4130", .factor = 1.5, .samples = 4096, .seed = 1, .words = argv};

    o->said = malloc(((size_t)argc * 2 + 4) * sizeof *o->said);
    o->case_patterns = malloc((size_t)argc * sizeof *o->case_patterns);
    o->part_patterns = malloc((size_t)argc * sizeof *o->part_patterns);
    o->rows = malloc((size_t)argc * sizeof *o->rows);
    o->sets = malloc((size_t)argc * sizeof *o->sets);
    o->tubes = malloc((size_t)argc * sizeof *o->tubes);
    o->ats = malloc((size_t)argc * sizeof *o->ats);
    if (o->rows == NULL || o->sets == NULL || o->tubes == NULL || o->ats == NULL || o->said == NULL || o->case_patterns == NULL || o->part_patterns == NULL) {
        say("out of memory");
        return false;
    }
    say_word(o, "railbow");
    say_word(o, command);
    opterr = 0;
    for (int got; (got = getopt_long(argc, argv, letters, longs, NULL)) != -1;) {
        if (got == ':' || got == '?') {
            refuse_option(command, takes, got, argv[optind - 1]);
            return false;
        }
        const option_entry *e = entry_of(got);
        const int before = optind;
        if (e == NULL || !e->take(o, optarg)) return false;
        if (!bears_on_answer(e)) continue;
        say_word(o, e->dashed);
        if (optarg != NULL) say_word(o, optarg);
        else if (optind > before) say_word(o, argv[before]); /* a list that stands apart */
    }
    o->operands = argv + optind;
    o->operand_count = argc - optind;
    for (int i = optind; i < argc; i++) say_word(o, argv[i]);
    return is_sound(o, command);
}

void options_free(options *o)
{
    free(o->said);
    free(o->case_patterns);
    free(o->part_patterns);
    free(o->rows);
    free(o->sets);
    free(o->tubes);
    free(o->ats);
    o->rows = NULL;
    o->tubes = o->ats = o->sets = NULL;
    o->said = o->case_patterns = o->part_patterns = NULL;
}
