#include "command/commands.h"

#include "command/case_table.h"
#include "command/output.h"
#include "command/say.h"
#include "report/check_table.h"
#include "command/shop_table.h"
#include "report/shop_table.h"
#include "report/grid.h"
#include "report/study_table.h"

/* One table of a list's columns: name, unit, default, meaning. */
static void say_list(text *out, const char *title, const field_list *list, bool input)
{
    grid g = {0};
    text_format(out, "%s\n\n", title);
    grid_column(&g, "column", GRID_LEFT);
    grid_column(&g, "unit", GRID_LEFT);
    if (input) grid_column(&g, "default", GRID_LEFT);
    grid_column(&g, "meaning", GRID_LEFT);
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        const unit *u = unit_shown(f->dimension, UNITS_US);
        const bool required = (f->rule & FIELD_REQUIRED) != 0;
        grid_cell(&g, TONE_PLAIN, f->name);
        grid_cell(&g, TONE_PLAIN, u != NULL ? u->name : f->kind == FIELD_NUMBER ? "-" : "text");
        if (input) grid_cell(&g, TONE_PLAIN, required ? "required" : f->fallback_text);
        grid_cell(&g, TONE_PLAIN, f->meaning);
    }
    grid_write(out, &g, false);
    grid_free(&g);
    text_char(out, '\n');
}

static void say_studies(text *out)
{
    static const field any = {.name = "", .dimension = DIM_NONE};
    sweep_columns sweep;
    limit_columns limit;
    sweep_columns_fill(&sweep, NULL, 0);
    limit_columns_fill(&limit, &any);
    say_list(out, "Results of compare", &compare_list, false);
    say_list(out, "Results of sweep (the varied columns stand behind case)", &sweep.list, false);
    say_list(out, "Results of limit (limit, now and room in the unit of the column)", &limit.list, false);
    say_list(out, "Results of index", &index_list, false);
    say_list(out, "Results of scatter", &scatter_list, false);
}

static void say_units(text *out)
{
    text_put(out, "Units that a header may name in brackets, as in \"length [in]\" or \"length [mm]\"\n\n");
    for (dimension d = DIM_LENGTH; d < DIM_COUNT; d++) {
        text names = {0};
        unit_say_names(&names, d);
        text_format(out, "  %s\n", text_string(&names, &out->failed));
        text_free(&names);
    }
}

int command_columns(const options *o)
{
    output out;
    text t = {0};
    if (o->operand_count > 0) {
        say("columns: takes no operand, but has '%s'; see 'railbow help columns'", o->operands[0]);
        return NO_VERDICT;
    }
    if (!output_open(&out, o)) return NO_VERDICT;
    say_list(&t, "Load cases", &case_list, true);
    say_list(&t, "Materials", &material_list, true);
    say_list(&t, "Tolerances of scatter", &tolerance_list, true);
    say_list(&t, "Spec of inspect", &spec_list, true);
    say_list(&t, "Readings of inspect", &reading_list, true);
    say_list(&t, "Cuts of release", &cut_list, true);
    say_list(&t, "Pulls of pull", &pull_list, true);
    say_list(&t, "Results of check", &check_list, false);
    say_list(&t, "Results of section", &section_list, false);
    say_studies(&t);
    say_list(&t, "Results of inspect", &inspect_cases_list, false);
    say_list(&t, "Results of release", &release_list, false);
    say_list(&t, "Results of pull", &pulled_list, false);
    say_units(&t);
    const bool written = output_text(&out, &t);
    text_free(&t);
    return output_close(&out, true) && written ? ALL_HOLD : NO_VERDICT;
}
