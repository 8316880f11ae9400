#define _GNU_SOURCE /* optind, strcasecmp */
#include "program/option_list.h"

#include "cases/frame_cut_table.h"
#include "cases/frame_results.h"
#include "cases/frame_spread_table.h"
#include "program/say.h"
#include "table/number.h"
#include "table/text.h"

#include <getopt.h>
#include <limits.h>
#include <math.h>
#include <string.h>
#include <strings.h>

typedef struct option_word {
    const char *name;
    int value;
} option_word;

/* Common practice, no source: the walls that suppliers of 4130 tube keep. */
const char options_stock_walls[] = "0.028in,0.035in,0.049in,0.058in,0.065in,0.083in,0.095in,0.120in";

/* Common practice, no source: the diameters that they keep. */
const char options_stock_ods[] = "0.5in,0.625in,0.75in,0.875in,1in,1.125in,1.25in,1.375in,1.5in,1.625in,1.75in,2in,2.25in,2.5in,3in";

static const option_word formats[] = {
    {"text", FORMAT_TEXT}, {"csv", FORMAT_CSV}, {"json", FORMAT_JSON}, {NULL, 0}};
static const option_word tables_of_frame[] = {{"tubes", OF_TUBES}, {"joints", OF_JOINTS}, {"runs", OF_RUNS}, {"arch", OF_ARCH}, {"details", OF_DETAILS},
                                              {NULL, 0}};
static const option_word tables_of_cut[] = {{"cuts", OF_CUTS}, {"joints", OF_CUT_JOINTS}, {NULL, 0}};
static const option_word scatter_tables[] = {
    {"frame", SCATTER_OF_FRAME}, {"tubes", SCATTER_OF_TUBES}, {"samples", SCATTER_OF_SAMPLES}, {NULL, 0}};
static const option_word sheets[] = {{"short", PAGES_SHORT}, {"all", PAGES_ALL}, {NULL, 0}};
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

bool option_is_list(const char *word)
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
    o->walls = value != NULL ? value : option_is_list(o->words[optind]) ? o->words[optind++] : options_stock_walls;
    return true;
}

static bool take_place_tube(options *o, const char *value) { o->tube = value; return true; }
static bool take_joint(options *o, const char *value) { o->joint = value; return true; }
static bool take_run(options *o, const char *value) { o->run = value; return true; }
static bool take_find(options *o, const char *value) { o->find = value; return true; }
static bool take_from(options *o, const char *value) { o->from = value; return true; }
static bool take_to(options *o, const char *value) { o->to = value; return true; }
static bool take_details(options *o, const char *value) { o->details = value; return true; }
static bool take_curves(options *o, const char *value) { o->curves = value; return true; }
static bool take_tolerances(options *o, const char *value) { o->tolerances = value; return true; }

/* "N", or a part of them: "FROM:TO". */
static bool take_samples(options *o, const char *value)
{
    enum { MOST = 100000000 };
    const char *colon = strchr(value, ':');
    char first[16] = "";
    int from, to;
    o->samples_before = 0;
    if (colon == NULL) return take_count("samples", value, MOST, &o->samples);
    if ((size_t)(colon - value) < sizeof first) memcpy(first, value, (size_t)(colon - value));
    if (!take_count("samples", first, MOST, &from) || !take_count("samples", colon + 1, MOST, &to)) return false;
    if (from > to) {
        say("--samples: '%s' ends before it begins", value);
        return false;
    }
    o->samples_before = from - 1;
    o->samples = to - o->samples_before;
    return true;
}

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

static bool take_stock(options *o, const char *value) { o->stock = value; return true; }

static bool take_kerf(options *o, const char *value)
{
    if (measure_read(value, strlen(value), DIM_LENGTH, &o->kerf) && o->kerf.value >= 0) return true;
    say("--kerf: '%s' is not a length of at least 0", value);
    return false;
}

static bool take_report(options *o, const char *value) { o->report = value; return true; }
static bool take_title(options *o, const char *value) { o->title = value; return true; }
static bool take_by(options *o, const char *value) { o->by = value; return true; }
static bool take_note(options *o, const char *value) { o->note = value; return true; }
static bool take_date(options *o, const char *value) { o->date = value; return true; }

static bool take_working(options *o, const char *value) { (void)value; o->working = true; return true; }
static bool take_pages(options *o, const char *value) { o->pages_given = true; return take_word(sheets, "pages", value, &o->pages); }

/* The patterns' rooms are made before the options are read. */
static bool take_case(options *o, const char *value) { o->case_patterns[o->case_count++] = value; return true; }
static bool take_part(options *o, const char *value) { o->part_patterns[o->part_count++] = value; return true; }

static bool take_set(options *o, const char *value) { o->sets[o->set_count++] = value; return true; }
static bool take_row(options *o, const char *value) { return take_count("row", value, INT_MAX, &o->rows[o->row_count++]); }
static bool take_live(options *o, const char *value) { (void)value; o->live = true; return true; }

/* An angle of --view, in degrees or with its unit. */
static bool take_angle(const char *at, size_t length, double least, double most, double *degrees)
{
    const unit *deg = unit_shown(DIM_ANGLE, UNITS_US);
    measure m;
    if (!measure_read(at, length, DIM_ANGLE, &m)) return false;
    *degrees = m.has_unit ? unit_from_own(deg, m.value) : m.value;
    return *degrees >= least && *degrees <= most;
}

static bool take_view(options *o, const char *value)
{
    const char *comma = strchr(value, ',');
    o->view_given = comma != NULL && take_angle(value, (size_t)(comma - value), -360, 360, &o->azimuth)
        && take_angle(comma + 1, strlen(comma + 1), -90, 90, &o->elevation);
    if (!o->view_given)
        say("--view: '%s' is not AZIMUTH,ELEVATION in degrees, as in 30,20: the azimuth from -360 to 360, the elevation from -90 to 90", value);
    return o->view_given;
}

static bool take_all(options *o, const char *value) { (void)value; o->all = true; return true; }
static bool take_new_details(options *o, const char *value) { (void)value; o->new_details = true; return true; }
static bool take_frame(options *o, const char *value) { (void)value; o->frame = true; return true; }

static bool take_of(options *o, const char *value)
{
    o->of_given = true;
    return take_word(tables_of_frame, "of", value, &o->of);
}

static bool take_of_cut(options *o, const char *value)
{
    o->of_given = true;
    return take_word(tables_of_cut, "of", value, &o->of);
}

static bool take_tube(options *o, const char *value) { o->tubes[o->tube_count++] = value; return true; }
static bool take_at(options *o, const char *value) { o->ats[o->at_count++] = value; return true; }
static bool take_moved(options *o, const char *value) { o->moved = value; return true; }
static bool take_moved_clock(options *o, const char *value) { o->moved_clock = value; return true; }
static bool take_turned(options *o, const char *value) { o->turned = value; return true; }
static bool take_turned_clock(options *o, const char *value) { o->turned_clock = value; return true; }
static bool take_opened(options *o, const char *value) { o->opened = value; return true; }
static bool take_arch(options *o, const char *value) { o->arch = value; return true; }

static bool take_scatter_of(options *o, const char *value)
{
    o->scatter_of_given = true;
    return take_word(scatter_tables, "of", value, &o->scatter_of);
}

static bool take_help(options *o, const char *value) { (void)value; o->help = true; return true; }

#define OPTION(name) name, "--" name

const option_entry option_entries[] = {
    {OPTION("all"), 0, TAKES_NEW, NULL, take_all, "every column, not the commonest alone"},
    {OPTION("frame"), 0, TAKES_NEW, NULL, take_frame, "a frame, not a file of load cases: three tables in the folder FOLDER"},
    {OPTION("details"), 0, TAKES_NEW, NULL, take_new_details, "a table of details, for the option --details of other commands; with --frame one of the tubes of a "
                                                              "frame, for its folder"},
    {OPTION("of"), 0, TAKES_FRAME, "tubes|joints|runs|arch|details", take_of, "the table of CSV and text: details of load cases; of a frame any (default tubes)"},
    {OPTION("arch"), 0, TAKES_FRAME, "RUN", take_arch, "of a frame: where to weld each joint so that this run brings it to its drawn place"},
    {OPTION("tube"), 0, TAKES_FRAME, "PATTERN", take_tube, "of a frame: only the tubes of that name; * and ? stand for others; may be given again"},
    {OPTION("all"), 0, TAKES_FRAME, NULL, take_all, "of a frame: every tube, where the text lists the short and the closest"},
    {OPTION("tube"), 0, TAKES_CUT, "NAME", take_tube, "the tube that is cut; with --at, and both again for each further cut"},
    {OPTION("at"), 0, TAKES_CUT, "V", take_at, "where, from its joint A, with its unit, which no column gives: 12in"},
    {OPTION("run"), 0, TAKES_CUT, "RUN", take_run, "what acts while it is cut: this run at load factor 1 (default: nothing)"},
    {OPTION("of"), 0, TAKES_CUT, "cuts|joints", take_of_cut, "the table of CSV and text (default cuts)"},
    {OPTION("moved"), 0, TAKES_CUT, "V", take_moved, "reading of a cut that was made: movement across of the face on the B side, 0.18in"},
    {OPTION("moved_clock"), 0, TAKES_CUT, "C", take_moved_clock, "its clock, in degrees, seen from A toward B"},
    {OPTION("turned"), 0, TAKES_CUT, "V", take_turned, "reading: angle of the stub at B to the line of the stub at A, in degrees"},
    {OPTION("turned_clock"), 0, TAKES_CUT, "C", take_turned_clock, "its clock: the side to which the stub at B points"},
    {OPTION("opened"), 0, TAKES_CUT, "V", take_opened, "reading: gap that opened along the tube; negative if it closed"},
    {OPTION("output"), 'o', TAKES_OUTPUT | TAKES_TEXT, "FILE", take_output, "write FILE, whole or not at all; - is stdout"},
    {OPTION("format"), 0, TAKES_OUTPUT, "text|csv|json", take_format, "default: text on a terminal, else csv"},
    {OPTION("format"), 0, TAKES_TEXT, "text|csv|json", take_format, "default: text"},
    {OPTION("units"), 0, TAKES_OUTPUT | TAKES_TEXT, "us|si", take_units, "units of the answer (default us); input names its own"},
    {OPTION("units"), 0, TAKES_NEW, "us|si", take_units, "units of its columns (default us)"},
    {OPTION("materials"), 0, TAKES_MATERIALS, "FILE", take_materials, "materials table, instead of the installed one"},
    {OPTION("material"), 0, TAKES_MATERIAL, "NAME", take_material, "material of the weight (default 4130)"},
    {OPTION("factor"), 0, TAKES_FACTOR, "N", take_factor, "load factor asked for where a case names none (default 1.5)"},
    {OPTION("case"), 0, TAKES_FACTOR, "PATTERN", take_case, "only the load cases of that name (of a frame the tubes, as --tube); * and ? "
                                                             "stand for others; may be given again"},
    {OPTION("part"), 0, TAKES_FACTOR, "PATTERN", take_part, "only those of that part, likewise"},
    {OPTION("row"), 0, TAKES_FACTOR, "N", take_row, "only the load case in line N of the file; may be given again"},
    {OPTION("set"), 0, TAKES_FACTOR, "COLUMN=VALUE", take_set, "this value in every load case that is chosen, with its unit, else in that of the column's header: wall=0.083in; "
                                                             "an empty value is the default; may be given again"},
    {OPTION("walls"), 0, TAKES_WALLS, "LIST", take_walls, "walls, comma-separated, in the unit of the column or each with its own: 1.5mm; without a list "
                                                  "the stock walls"},
    {OPTION("ods"), 0, TAKES_WALLS, "LIST", take_ods, "outside diameters, likewise"},
    {OPTION("tube"), 0, TAKES_PLACE, "NAME", take_place_tube, "of a frame: the tube whose column is meant"},
    {OPTION("joint"), 0, TAKES_PLACE, "NAME", take_joint, "of a frame: the joint whose column is meant"},
    {OPTION("run"), 0, TAKES_PLACE, "NAME", take_run, "of a frame: the run in whose loads it is: every row that gives the column, or "
                                                      "those on --tube or --joint"},
    {OPTION("vary"), 0, TAKES_VARY, "COLUMN=FROM:TO:STEP", take_vary, "a column and its values, with units, else in that of its header: "
                                                              "miss_a=0:0.5:0.0625 or miss_a=0mm:12mm:2mm; once or twice"},
    {OPTION("find"), 0, TAKES_LIMIT, "COLUMN", take_find, "the column whose limit is looked for"},
    {OPTION("from"), 0, TAKES_LIMIT, "V", take_from, "where to begin, with its unit, else in that of the column's header (default: the column's lower bound, "
                                             "else 0)"},
    {OPTION("to"), 0, TAKES_LIMIT, "V", take_to, "where to end, likewise; may lie below --from"},
    {OPTION("margin"), 0, TAKES_LIMIT, "M", take_margin, "margin under which it counts as too far: 0.1 or 10% (default 0)"},
    {OPTION("details"), 0, TAKES_DETAILS, "FILE", take_details, "table of holes, welds, sleeves and sockets on the tubes; each is checked with its tube"},
    {OPTION("curves"), 0, TAKES_LIFE, "FILE", take_curves, "table of S-N curves, instead of the installed one"},
    {OPTION("tolerances"), 0, TAKES_SCATTER, "FILE", take_tolerances, "table of column, minus, plus, unit, shape"},
    {OPTION("samples"), 0, TAKES_SCATTER, "N", take_samples, "how many (default 4096); of a frame also FROM:TO, a part of them"},
    {OPTION("of"), 0, TAKES_SCATTER, "frame|tubes|samples", take_scatter_of, "of a frame: the table of CSV (default frame)"},
    {OPTION("seed"), 0, TAKES_SCATTER, "S", take_seed, "which sequence (default 1); the same seed gives the same answer"},
    {OPTION("drivers"), 0, TAKES_SCATTER, NULL, take_drivers, "every column's share of the spread, not the largest alone"},
    {OPTION("spec"), 0, TAKES_INSPECT, "FILE", take_spec, "what is asked: part, od_least, od_most, wall_least, bow_most"},
    {OPTION("gauge"), 0, TAKES_INSPECT, "V", take_gauge, "uncertainty of a reading (default 0.001 in)"},
    {OPTION("cases"), 0, TAKES_INSPECT, "FILE", take_cases, "load cases, to see what a thin tube costs those of its part"},
    {OPTION("stock"), 0, TAKES_STICKS, "FILE", take_stock, "the sticks in stock: stick, od, wall, length, bow, count"},
    {OPTION("kerf"), 0, TAKES_STICKS, "V", take_kerf, "what a cut takes (default 1/16 in)"},
    {OPTION("steps"), 0, TAKES_STEPS, "N", take_steps, "a table to sneak up by, in N even steps of set"},
    {OPTION("report"), 0, TAKES_REPORT, "FILE", take_report, "also write FILE, an HTML page with drawings, which needs nothing else"},
    {OPTION("live"), 0, TAKES_LIVE, NULL, take_live, "that page can be worked with: the program itself is in it, and the inputs"},
    {OPTION("pages"), 0, TAKES_SHEETS, "short|all", take_pages, "load cases with a sheet of their own on that page: the short and the tightest, or all "
                                                               "(default short)"},
    {OPTION("working"), 0, TAKES_SHEETS, NULL, take_working, "the working stands open on that page, and is printed"},
    {OPTION("view"), 0, TAKES_VIEW, "AZIMUTH,ELEVATION", take_view, "of a frame: also a view from there on that page, in degrees: 0,0 is from the right side, "
                                                                    "30,20 with the nose toward the viewer and from above"},
    {OPTION("title"), 0, TAKES_REPORT, "TEXT", take_title, "title of that page"},
    {OPTION("by"), 0, TAKES_REPORT, "TEXT", take_by, "who made it"},
    {OPTION("note"), 0, TAKES_REPORT, "TEXT", take_note, "a line under its title"},
    {OPTION("date"), 0, TAKES_REPORT, "TEXT", take_date, "its date; without this it bears none"},
    {OPTION("jobs"), 0, TAKES_JOBS, "N", take_jobs, "threads (default: one a core); the answer is the same"},
    {OPTION("help"), 'h', 0, NULL, take_help, "this text"},
};
_Static_assert(sizeof option_entries / sizeof *option_entries == OPTION_ENTRIES, "one entry an option");

bool option_may_stand_alone(const option_entry *e)
{
    return e->take == take_walls;
}
