#include "command/commands.h"

#include "cases/section_table.h"
#include "program/exit_status.h"
#include "program/facts.h"
#include "program/materials.h"
#include "program/measure.h"
#include "program/rows.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/text/cells.h"
#include "report/text/list_text.h"

#include <stdlib.h>
#include <string.h>

typedef struct section_rows {
    section_row *at;
    size_t count;
} section_rows;

static double density_of(const materials *m, const char *name)
{
    for (size_t i = 0; i < m->count; i++)
        if (strcmp(m->list[i].name, name) == 0) return m->list[i].density;
    return -1;
}

static bool add_section(section_rows *sections, const char *as_given, double od, double wall, double density)
{
    section_row *next = &sections->at[sections->count];
    const rbow_status status = rbow_section_of(od, wall, &next->section);
    if (status != RBOW_OK) {
        say("section: '%s': %s %s", as_given, rbow_status_input(status), rbow_status_text(status));
        return false;
    }
    next->weight_per_length = density * next->section.area;
    sections->count++;
    return true;
}

/* Without a file no header names a unit: a bare size is in inches, and is refused where the answer is not. */
static const unit *bare_unit(const options *o, const char *given)
{
    if (o->units == UNITS_US) return unit_find(DIM_LENGTH, "in", 2);
    say("section: '%s' names no unit: write it, as in 32mmx1.5mm or 1.25inx0.058in", given);
    return NULL;
}

/* "1.25x0.058", "32mmx1.5mm" */
static bool read_size(const char *size, const options *o, double *od, double *wall)
{
    measure both[2];
    const size_t first = strcspn(size, "xX\303"); /* \303 is the first byte of a times sign in UTF-8 */
    const size_t times = strncmp(size + first, "\303\227", 2) == 0 ? 2 : size[first] != '\0';
    const char *second = size + first + times;
    if (times == 0 || !measure_read(size, first, DIM_LENGTH, &both[0])
        || !measure_read(second, strlen(second), DIM_LENGTH, &both[1])) {
        say("section: '%s' is not a size like 1.25x0.058 (inch) or 32mmx1.5mm", size);
        return false;
    }
    if (both[0].has_unit != both[1].has_unit) {
        say("section: '%s': either both sizes have their unit, or none", size);
        return false;
    }
    const unit *u = both[0].has_unit ? NULL : bare_unit(o, size);
    return (both[0].has_unit || u != NULL) && measure_in(&both[0], u, od) && measure_in(&both[1], u, wall);
}

static bool sections_of_sizes(const options *o, double density, section_rows *sections)
{
    bool fine = true;
    sections->at = malloc(((size_t)o->operand_count + 1) * sizeof *sections->at);
    if (sections->at == NULL) {
        say("out of memory");
        return false;
    }
    for (int i = 0; i < o->operand_count; i++) {
        double od, wall;
        const char *size = o->operands[i];
        fine = read_size(size, o, &od, &wall) && add_section(sections, size, od, wall, density) && fine;
    }
    return fine;
}

static bool add_of_grid(section_rows *sections, const measure *od, const measure *wall, const unit *bare, double density)
{
    double d, t;
    text size = {0};
    if (!measure_in(od, bare, &d) || !measure_in(wall, bare, &t)) return false;
    text_format(&size, "%.*sx%.*s", (int)od->length, od->at, (int)wall->length, wall->at);
    const bool fine = add_section(sections, size.failed ? "" : size.at, d, t, density);
    text_free(&size);
    return fine;
}

static bool sections_of_grid(const options *o, double density, section_rows *sections)
{
    measures ods = {0}, walls = {0};
    bool fine = measures_read(&ods, "ods", o->ods, DIM_LENGTH) && measures_read(&walls, "walls", o->walls, DIM_LENGTH);
    const bool bare = fine && !(ods.have_units && walls.have_units);
    const unit *u = bare ? bare_unit(o, ods.have_units ? o->walls : o->ods) : NULL;
    fine = fine && (!bare || u != NULL);
    if (fine) sections->at = malloc(ods.count * walls.count * sizeof *sections->at);
    if (fine && sections->at == NULL) say("out of memory");
    for (size_t i = 0; fine && sections->at != NULL && i < ods.count; i++)
        for (size_t k = 0; k < walls.count; k++)
            fine = add_of_grid(sections, &ods.at[i], &walls.at[k], u, density) && fine;
    measures_free(&ods);
    measures_free(&walls);
    return fine && sections->at != NULL;
}

static bool write_sections(const section_rows *sections, output *out, const run_facts *facts, size_t refused)
{
    text t = {0}, words = {0};
    rows written = rows_for(out, &section_list);
    bool fine = rows_begin(out, &section_list, facts);
    for (size_t i = 0; i < sections->count; i++) rows_add(&written, &sections->at[i]);
    if (out->format == FORMAT_TEXT) {
        const screen s = screen_of(out, false, NULL, &words);
        list_text(&t, &section_list, sections->at, sections->count, &s);
        put_end(&t, &s);
    }
    fine = output_text(out, &t) && output_text(out, &written.written) && fine;
    text_free(&t);
    text_free(&words);
    rows_free(&written);
    return rows_end(out, refused, NULL, NULL) && fine;
}

/* Returned: false after a message. */
static bool answer(const section_rows *sections, const options *o, const materials *m, bool complete)
{
    output out;
    run_facts facts;
    options files = *o;
    files.operand_count = 0; /* sizes are no files */
    bool written = facts_fill(&facts, &files, m) && output_open(&out, &files);
    if (written) {
        out.incomplete = !complete;
        written = write_sections(sections, &out, &facts, complete ? 0 : (size_t)o->operand_count - sections->count);
        written = output_close(&out, true) && written;
    }
    facts_free(&facts);
    return written;
}

int command_section(const options *o)
{
    materials m;
    section_rows sections = {0};
    const bool of_grid = o->ods != NULL && o->walls != NULL && o->operand_count == 0;
    if (!of_grid && (o->operand_count == 0 || o->ods != NULL || o->walls != NULL)) {
        say("section: name sizes like 1.25x0.058, or a grid with --ods and --walls; see 'railbow help section'");
        return NO_VERDICT;
    }
    int status = ALL_HOLD;
    const bool opened = materials_open(&m, o->materials);
    const double density = density_of(&m, o->material);
    if (opened && density < 0) say("section: --material: '%s' is not in %s", o->material, m.file);
    if (!opened || density < 0) {
        status = NO_VERDICT;
    } else {
        if (!(of_grid ? sections_of_grid(o, density, &sections) : sections_of_sizes(o, density, &sections))) status = NO_VERDICT;
        if (sections.count > 0 && !answer(&sections, o, &m, status == ALL_HOLD)) status = NO_VERDICT;
    }
    free(sections.at);
    materials_close(&m);
    return status;
}
