#define _GNU_SOURCE /* getopt_long */
#include "program/options.h"

#include "program/say.h"
#include "report/lines.h"
#include "table/names.h"
#include "table/number.h"
#include "table/text.h"

#include <getopt.h>
#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

typedef struct option_word {
    const char *name;
    int value;
} option_word;

/* Common practice, no source: the walls that suppliers of 4130 tube keep. */
const char options_stock_walls[] = "0.028in,0.035in,0.049in,0.058in,0.065in,0.083in,0.095in,0.120in";

static const option_word formats[] = {
    {"text", FORMAT_TEXT}, {"csv", FORMAT_CSV}, {"json", FORMAT_JSON}, {NULL, 0}};
static const option_word systems[] = {{"us", UNITS_US}, {"si", UNITS_SI}, {NULL, 0}};

static bool take_word(const option_word *words, const char *name, const char *value, int *taken)
{
    for (const option_word *w = words; w->name != NULL; w++) {
        if (strcmp(w->name, value) != 0) continue;
        *taken = w->value;
        return true;
    }
    text allowed = {0};
    for (const option_word *w = words; w->name != NULL; w++)
        text_format(&allowed, "%s%s", w == words ? "" : ", ", w->name);
    say("--%s: '%s' is not one of %s", name, value, allowed.failed ? "" : allowed.at);
    text_free(&allowed);
    return false;
}

static bool take_number(const char *name, const char *value, double *taken)
{
    if (number_read(value, strlen(value), taken) && *taken > 0) return true;
    say("--%s: '%s' is not a number above 0", name, value);
    return false;
}

static bool take_count(const char *name, const char *value, int most, int *taken)
{
    double number;
    if (!number_read(value, strlen(value), &number) || !(number >= 1 && number <= most) || floor(number) < number) {
        say("--%s: '%s' is not a whole number from 1 to %d", name, value, most);
        return false;
    }
    *taken = (int)number;
    return true;
}

static bool take_format(options *o, const char *value)
{
    int word = FORMAT_AUTO;
    if (!take_word(formats, "format", value, &word)) return false;
    o->format = (output_format)word;
    return true;
}

static bool take_units(options *o, const char *value)
{
    int word = UNITS_US;
    if (!take_word(systems, "units", value, &word)) return false;
    o->units = (unit_system)word;
    return true;
}

static bool take_output(options *o, const char *value) { o->output = value; return true; }
static bool take_materials(options *o, const char *value) { o->materials = value; return true; }
static bool take_material(options *o, const char *value) { o->material = value; return true; }
static bool take_factor(options *o, const char *value)
{
    o->factor_given = true;
    return take_number("factor", value, &o->factor);
}

static bool take_jobs(options *o, const char *value) { return take_count("jobs", value, 1024, &o->jobs); }
static bool take_ods(options *o, const char *value) { o->ods = value; return true; }

/* Whether a word was meant as a list of sizes rather than as a file: a number, then perhaps a unit. */
static bool is_list(const char *word)
{
    const char *dot = word != NULL ? strrchr(word, '.') : NULL;
    if (word == NULL || strspn(word, "0123456789.") == 0 || strcmp(word, ".") == 0) return false;
    if (dot != NULL && strcasecmp(dot, ".csv") == 0) return false;
    word += strspn(word, "0123456789.");
    word += strspn(word, " abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
    return *word == '\0' || *word == ',';
}

/* The list may be left out: then the stock walls count. It may follow as a word of its own. */
static bool take_walls(options *o, const char *value)
{
    o->walls = value != NULL ? value : is_list(o->words[optind]) ? o->words[optind++] : options_stock_walls;
    return true;
}

static bool take_find(options *o, const char *value) { o->find = value; return true; }
static bool take_from(options *o, const char *value) { o->from = value; return true; }
static bool take_to(options *o, const char *value) { o->to = value; return true; }
static bool take_tolerances(options *o, const char *value) { o->tolerances = value; return true; }
static bool take_samples(options *o, const char *value) { return take_count("samples", value, 100000000, &o->samples); }
static bool take_seed(options *o, const char *value) { return take_count("seed", value, INT_MAX, &o->seed); }
static bool take_drivers(options *o, const char *value) { (void)value; o->drivers = true; return true; }

static bool take_vary(options *o, const char *value)
{
    if (o->vary_count == 2) {
        say("--vary: at most two columns can be varied together");
        return false;
    }
    o->vary[o->vary_count++] = value;
    return true;
}

static bool take_margin(options *o, const char *value)
{
    const size_t length = strlen(value), digits = length > 0 && value[length - 1] == '%' ? length - 1 : length;
    if (number_read(value, digits, &o->margin)) {
        if (digits < length) o->margin /= 100;
        if (o->margin >= -1) return true;
    }
    say("--margin: '%s' is not a number of at least -1, or -100%%", value);
    return false;
}

static bool take_spec(options *o, const char *value) { o->spec = value; return true; }
static bool take_cases(options *o, const char *value) { o->cases = value; return true; }
static bool take_steps(options *o, const char *value) { return take_count("steps", value, 1000, &o->steps); }

static bool take_gauge(options *o, const char *value)
{
    if (measure_read(value, strlen(value), DIM_LENGTH, &o->gauge) && o->gauge.value >= 0) return true;
    say("--gauge: '%s' is not a length of at least 0", value);
    return false;
}

static bool take_report(options *o, const char *value) { o->report = value; return true; }
static bool take_title(options *o, const char *value) { o->title = value; return true; }
static bool take_by(options *o, const char *value) { o->by = value; return true; }
static bool take_note(options *o, const char *value) { o->note = value; return true; }
static bool take_date(options *o, const char *value) { o->date = value; return true; }

/* The patterns' rooms are made before the options are read. */
static bool take_case(options *o, const char *value) { o->case_patterns[o->case_count++] = value; return true; }
static bool take_part(options *o, const char *value) { o->part_patterns[o->part_count++] = value; return true; }

static bool take_all(options *o, const char *value) { (void)value; o->all = true; return true; }
static bool take_help(options *o, const char *value) { (void)value; o->help = true; return true; }

typedef struct option_entry {
    const char *name, *dashed;
    char letter; /* 0 for none */
    unsigned of; /* which group of what commands take; 0 for every command */
    const char *value; /* NULL for none */
    bool (*take)(options *o, const char *value);
    const char *meaning;
} option_entry;

#define OPTION(name) name, "--" name

static const option_entry entries[] = {
    {OPTION("all"), 0, TAKES_NEW, NULL, take_all, "every column, not the commonest alone"},
    {OPTION("output"), 'o', TAKES_OUTPUT | TAKES_TEXT, "FILE", take_output, "write FILE, whole or not at all; - is stdout"},
    {OPTION("format"), 0, TAKES_OUTPUT, "text|csv|json", take_format, "default: text on a terminal, else csv"},
    {OPTION("format"), 0, TAKES_TEXT, "text|csv|json", take_format, "default: text"},
    {OPTION("units"), 0, TAKES_OUTPUT | TAKES_TEXT, "us|si", take_units, "units of the answer (default us); input names its own"},
    {OPTION("units"), 0, TAKES_NEW, "us|si", take_units, "units of its columns (default us)"},
    {OPTION("materials"), 0, TAKES_MATERIALS, "FILE", take_materials, "materials table, instead of the installed one"},
    {OPTION("material"), 0, TAKES_MATERIAL, "NAME", take_material, "material of the weight (default 4130)"},
    {OPTION("factor"), 0, TAKES_FACTOR, "N", take_factor, "load factor asked for where a case names none (default 1.5)"},
    {OPTION("case"), 0, TAKES_FACTOR, "PATTERN", take_case, "only the load cases of that name; * and ? stand for others; may be "
                                                             "given again"},
    {OPTION("part"), 0, TAKES_FACTOR, "PATTERN", take_part, "only the load cases of that part, likewise"},
    {OPTION("walls"), 0, TAKES_WALLS, "LIST", take_walls, "walls, comma-separated, in the unit of the column or each with its own: 1.5mm; without a list "
                                                  "the stock walls"},
    {OPTION("ods"), 0, TAKES_WALLS, "LIST", take_ods, "outside diameters, likewise"},
    {OPTION("vary"), 0, TAKES_VARY, "COLUMN=FROM:TO:STEP", take_vary, "a column and its values, with units if wanted: "
                                                              "miss_a=0:0.5:0.0625 or miss_a=0mm:12mm:2mm; once or twice"},
    {OPTION("find"), 0, TAKES_LIMIT, "COLUMN", take_find, "the column whose limit is looked for"},
    {OPTION("from"), 0, TAKES_LIMIT, "V", take_from, "where to begin, with its unit if wanted (default: the column's lower bound, "
                                             "else 0)"},
    {OPTION("to"), 0, TAKES_LIMIT, "V", take_to, "where to end; may lie below --from"},
    {OPTION("margin"), 0, TAKES_LIMIT, "M", take_margin, "margin under which it counts as too far: 0.1 or 10% (default 0)"},
    {OPTION("tolerances"), 0, TAKES_SCATTER, "FILE", take_tolerances, "table of column, minus, plus, unit, shape"},
    {OPTION("samples"), 0, TAKES_SCATTER, "N", take_samples, "how many (default 4096)"},
    {OPTION("seed"), 0, TAKES_SCATTER, "S", take_seed, "which sequence (default 1); the same seed gives the same answer"},
    {OPTION("drivers"), 0, TAKES_SCATTER, NULL, take_drivers, "every column's share of the spread, not the largest alone"},
    {OPTION("spec"), 0, TAKES_INSPECT, "FILE", take_spec, "what is asked: part, od_least, od_most, wall_least, bow_most"},
    {OPTION("gauge"), 0, TAKES_INSPECT, "V", take_gauge, "uncertainty of a reading (default 0.001 in)"},
    {OPTION("cases"), 0, TAKES_INSPECT, "FILE", take_cases, "load cases, to see what a thin tube costs those of its part"},
    {OPTION("steps"), 0, TAKES_STEPS, "N", take_steps, "a table to sneak up by, in N even steps of set"},
    {OPTION("report"), 0, TAKES_REPORT, "FILE", take_report, "also write FILE, an HTML page with drawings; of check also with the working"},
    {OPTION("title"), 0, TAKES_REPORT, "TEXT", take_title, "title of that page"},
    {OPTION("by"), 0, TAKES_REPORT, "TEXT", take_by, "who made it"},
    {OPTION("note"), 0, TAKES_REPORT, "TEXT", take_note, "a line under its title"},
    {OPTION("date"), 0, TAKES_REPORT, "TEXT", take_date, "its date; without this it bears none"},
    {OPTION("jobs"), 0, TAKES_JOBS, "N", take_jobs, "threads (default: one a core); the answer is the same"},
    {OPTION("help"), 'h', 0, NULL, take_help, "this text"},
};
enum { ENTRIES = sizeof entries / sizeof *entries };

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
    for (size_t i = 0; i < ENTRIES; i++)
        if (is_taken(&entries[i], takes) && option_width(&entries[i]) > widest) widest = option_width(&entries[i]);
    for (size_t i = 0; i < ENTRIES; i++) {
        if (!is_taken(&entries[i], takes)) continue;
        text line = {0};
        put_option(&line, &entries[i]);
        text_format(&line, "%*s%s", (int)(widest + 2 - option_width(&entries[i])), "", entries[i].meaning);
        wrap(out, text_string(&line, &out->failed), widest + 2, width);
        text_free(&line);
    }
}

bool options_at(unsigned takes, size_t i, option_shown *shown)
{
    for (size_t k = 0; k < ENTRIES; k++) {
        const option_entry *e = &entries[k];
        if (!is_taken(e, takes) || i-- > 0) continue;
        *shown = (option_shown){e->name, e->letter, e->value, e->meaning};
        return true;
    }
    return false;
}

/* getopt's tables for one command. */
static void fill_tables(unsigned takes, struct option longs[ENTRIES + 1], char letters[2 * ENTRIES + 2])
{
    size_t count = 0;
    *letters++ = ':'; /* a missing value is told apart from an unknown option */
    for (size_t i = 0; i < ENTRIES; i++) {
        if (!is_taken(&entries[i], takes)) continue;
        longs[count++] = (struct option){.name = entries[i].name,
                                         .has_arg = entries[i].value == NULL       ? no_argument
                                             : entries[i].take == take_walls ? optional_argument
                                                                             : required_argument,
                                         .val = (int)i + 256};
        if (entries[i].letter == 0) continue;
        *letters++ = entries[i].letter;
        if (entries[i].value != NULL) *letters++ = ':';
    }
    longs[count] = (struct option){0};
    *letters = '\0';
}

static const option_entry *entry_of(int got)
{
    if (got >= 256) return &entries[got - 256];
    for (size_t i = 0; i < ENTRIES; i++)
        if (entries[i].letter == got) return &entries[i];
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
    for (size_t i = 0; i < ENTRIES; i++) {
        if (strcmp(entries[i].name, name) == 0) return NULL; /* another command's */
        if (is_taken(&entries[i], takes)) nearest_try(&n, entries[i].name);
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
    return e->of != TAKES_REPORT && e->of != TAKES_JOBS && strcmp(e->name, "output") != 0 && strcmp(e->name, "format") != 0
        && strcmp(e->name, "help") != 0;
}

/* A size that stands apart among the files was meant for the list before it. */
static bool has_stray_size(const options *o)
{
    const char *option = o->walls != NULL ? "walls" : "ods";
    for (int i = 0; i < o->operand_count && (o->walls != NULL || o->ods != NULL); i++) {
        if (!is_list(o->operands[i]) || access(o->operands[i], F_OK) == 0) continue;
        say("--%s: '%s' stands apart from the list: part the sizes with commas and no blanks, as in 0.058,0.065", option,
            o->operands[i]);
        return true;
    }
    return false;
}

/* Options that mean nothing without another. */
static bool is_sound(const options *o, const char *command)
{
    const char *const of_page[] = {o->title, o->by, o->note, o->date}, *const names[] = {"title", "by", "note", "date"};
    for (size_t i = 0; i < sizeof names / sizeof *names && o->report == NULL && !o->help; i++) {
        if (of_page[i] == NULL) continue;
        say("%s: --%s stands on the page, but --report names none", command, names[i]);
        return false;
    }
    return o->help || !has_stray_size(o);
}

static void say_word(options *o, const char *word)
{
    o->said[o->said_count++] = word;
}

bool options_read(options *o, const char *command, unsigned takes, int argc, char **argv)
{
    struct option longs[ENTRIES + 1];
    char letters[2 * ENTRIES + 2];
    fill_tables(takes, longs, letters);
    *o = (options){.material = "4130", .factor = 1.5, .samples = 4096, .seed = 1, .words = argv};

    o->said = malloc(((size_t)argc * 2 + 4) * sizeof *o->said);
    o->case_patterns = malloc((size_t)argc * sizeof *o->case_patterns);
    o->part_patterns = malloc((size_t)argc * sizeof *o->part_patterns);
    if (o->said == NULL || o->case_patterns == NULL || o->part_patterns == NULL) {
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
    o->said = o->case_patterns = o->part_patterns = NULL;
}
