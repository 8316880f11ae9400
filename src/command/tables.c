#include "command/tables.h"

#include "command/case_table.h"
#include "command/shop_table.h"
#include "report/grid.h"
#include "report/shop_table.h"
#include "report/working_text.h"

static void add(tables *t, const char *title, const char *command, const field_list *list, bool input)
{
    t->at[t->count++] = (table){title, command, list, input};
}

void tables_fill(tables *t)
{
    static const field any = {.name = "", .dimension = DIM_NONE};
    t->count = 0;
    sweep_columns_fill(&t->sweep, NULL, 0);
    limit_columns_fill(&t->limit, &any);
    add(t, "Load cases", NULL, &case_list, true);
    add(t, "Materials", NULL, &material_list, true);
    add(t, "Tolerances of scatter", "scatter", &tolerance_list, true);
    add(t, "Spec of inspect", "inspect", &spec_list, true);
    add(t, "Readings of inspect", "inspect", &reading_list, true);
    add(t, "Cuts of release", "release", &cut_list, true);
    add(t, "Pulls of pull", "pull", &pull_list, true);
    add(t, "Results of check", "check", &check_list, false);
    add(t, "Steps of explain (as CSV or JSON)", "explain", &step_list, false);
    add(t, "Results of section", "section", &section_list, false);
    add(t, "Results of compare", "compare", &compare_list, false);
    add(t, "Results of sweep (the varied columns stand behind case)", "sweep", &t->sweep.list, false);
    add(t, "Results of limit (limit, now and room in the unit of the column)", "limit", &t->limit.list, false);
    add(t, "Results of index", "index", &index_list, false);
    add(t, "Results of scatter", "scatter", &scatter_list, false);
    add(t, "Results of inspect", "inspect", &inspect_cases_list, false);
    add(t, "Results of release", "release", &release_list, false);
    add(t, "Results of pull", "pull", &pulled_list, false);
}

const char *table_unit(const field *f)
{
    const unit *u = unit_shown(f->dimension, UNITS_US);
    return u != NULL ? u->name : f->kind == FIELD_NUMBER ? "-" : "text";
}

const char *table_default(const field *f)
{
    return (f->rule & FIELD_REQUIRED) != 0 ? "required" : f->fallback_text;
}

void table_say(text *out, const table *t)
{
    grid g = {0};
    text_format(out, "%s\n\n", t->title);
    grid_column(&g, "column", GRID_LEFT);
    grid_column(&g, "unit", GRID_LEFT);
    if (t->input) grid_column(&g, "default", GRID_LEFT);
    grid_column(&g, "meaning", GRID_LEFT);
    for (size_t i = 0; i < t->list->count; i++) {
        const field *f = &t->list->fields[i];
        grid_cell(&g, TONE_PLAIN, f->name);
        grid_cell(&g, TONE_PLAIN, table_unit(f));
        if (t->input) grid_cell(&g, TONE_PLAIN, table_default(f));
        grid_cell(&g, TONE_PLAIN, f->meaning);
    }
    grid_write(out, &g, false);
    grid_free(&g);
    text_char(out, '\n');
}
