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

/* "1.25x0.058", "32mmx1.5mm" */
static bool read_size(const char *size, double *od, double *wall)
{
    const size_t first = strcspn(size, "xX\303"); /* \303 is the first byte of a times sign in UTF-8 */
    const size_t times = strncmp(size + first, "\303\227", 2) == 0 ? 2 : size[first] != '\0';
    return times > 0 && measure_read(size, first, DIM_LENGTH, od)
        && measure_read(size + first + times, strlen(size + first + times), DIM_LENGTH, wall);
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
        if (!read_size(size, &od, &wall)) {
            say("section: '%s' is not a size like 1.25x0.058 (inch, in decimals) or 32mmx1.5mm", size);
            fine = false;
        } else if (!add_section(sections, size, od, wall, density)) {
            fine = false;
        }
    }
    return fine;
}

static bool sections_of_grid(const options *o, double density, section_rows *sections)
{
    measures ods = {0}, walls = {0};
    bool fine = measures_read(&ods, "ods", o->ods, DIM_LENGTH) && measures_read(&walls, "walls", o->walls, DIM_LENGTH);
    if (fine) sections->at = malloc(ods.count * walls.count * sizeof *sections->at);
    if (fine && sections->at == NULL) say("out of memory");
    for (size_t i = 0; fine && sections->at != NULL && i < ods.count; i++)
        for (size_t k = 0; k < walls.count; k++) {
            text size = {0};
            text_format(&size, "%gx%g", ods.at[i], walls.at[k]);
            fine = add_section(sections, size.failed ? "" : size.at, ods.at[i], walls.at[k], density) && fine;
            text_free(&size);
        }
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
    return rows_end(out, refused) && fine;
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
