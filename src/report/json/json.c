#include "report/json/json.h"

#include <cjson/cJSON.h>
#include <math.h>

static void put_object(text *out, cJSON *object, bool complete)
{
    char *printed = complete ? cJSON_PrintUnformatted(object) : NULL;
    if (printed != NULL)
        text_put(out, printed);
    else
        out->failed = true;
    cJSON_free(printed);
    cJSON_Delete(object);
}

static bool add_strings(cJSON *object, const char *name, const char *const *strings, size_t count)
{
    cJSON *array = cJSON_AddArrayToObject(object, name);
    for (size_t i = 0; i < count && array != NULL; i++) {
        cJSON *string = cJSON_CreateString(strings[i]);
        if (string == NULL || !cJSON_AddItemToArray(array, string)) return false;
    }
    return array != NULL;
}

static bool add_table(cJSON *object, const char *name, const char *file, const char *sha256)
{
    cJSON *table = cJSON_AddObjectToObject(object, name);
    return table != NULL && cJSON_AddStringToObject(table, "file", file) != NULL && cJSON_AddStringToObject(table, "sha256", sha256) != NULL;
}

static bool add_units(cJSON *object, const field_list *list, unit_system units)
{
    cJSON *named = cJSON_AddObjectToObject(object, "units");
    bool complete = named != NULL;
    for (size_t i = 0; i < list->count && complete; i++) {
        const field *f = &list->fields[i];
        const unit *shown = unit_shown(f->dimension, units);
        if (shown != NULL) complete = cJSON_AddStringToObject(named, f->name, shown->name) != NULL;
    }
    return complete;
}

static bool add_facts(cJSON *object, const run_facts *facts)
{
    return object != NULL && cJSON_AddStringToObject(object, "version", facts->version) != NULL
        && add_strings(object, "command", facts->words, facts->word_count)
        && add_strings(object, "inputs", facts->inputs, facts->input_count)
        && add_table(object, "materials", facts->materials, facts->materials_sha256)
        && (facts->curves == NULL || add_table(object, "curves", facts->curves, facts->curves_sha256));
}

/* An object whose last brace gives way to more. */
static void put_open_object(text *out, cJSON *object, bool complete)
{
    put_object(out, object, complete);
    if (!out->failed) out->length--;
}

void json_open(text *out, const run_facts *facts, const field_list *list, unit_system units)
{
    cJSON *object = cJSON_CreateObject();
    const bool complete = add_facts(object, facts) && add_units(object, list, units);
    put_open_object(out, object, complete);
    text_put(out, ",\"rows\":[");
}

void json_open_tables(text *out, const run_facts *facts)
{
    cJSON *object = cJSON_CreateObject();
    put_open_object(out, object, add_facts(object, facts));
}

void json_open_table(text *out, const char *name, const field_list *list, unit_system units)
{
    cJSON *object = cJSON_CreateObject();
    text_format(out, ",\n\"%s\":", name);
    put_open_object(out, object, object != NULL && add_units(object, list, units));
    text_put(out, ",\"rows\":[");
}

void json_close_table(text *out)
{
    text_put(out, "\n]}");
}

void json_flag(text *out, const char *name, bool set)
{
    text_format(out, ",\n\"%s\":%s", name, set ? "true" : "false");
}

void json_close_tables(text *out, size_t refused)
{
    text_format(out, ",\"refused\":%zu}\n", refused);
}

static cJSON *add_value(cJSON *object, const field *f, const void *record, unit_system units)
{
    const char *word = field_text(f, record);
    if (word != NULL) return cJSON_AddStringToObject(object, f->name, word);
    const unit *shown = unit_shown(f->dimension, units);
    const double value = shown != NULL ? unit_from_own(shown, field_get(f, record)) : field_get(f, record);
    if (!isfinite(value)) return cJSON_AddNullToObject(object, f->name);
    return cJSON_AddNumberToObject(object, f->name, value);
}

void json_row(text *out, const field_list *list, const void *record, unit_system units)
{
    cJSON *object = cJSON_CreateObject();
    bool complete = object != NULL;
    text_put(out, ",\n");
    for (size_t i = 0; i < list->count && complete; i++)
        complete = add_value(object, &list->fields[i], record, units) != NULL;
    put_object(out, object, complete);
}

void json_close(text *out, size_t refused)
{
    text_format(out, "\n],\"refused\":%zu}\n", refused);
}

void json_close_beside(text *out, const char *name, const field_list *list, const text *written, bool cut_short, unit_system units, size_t refused)
{
    text_put(out, "\n]");
    json_open_table(out, name, list, units);
    if (written->length > 0) text_add(out, written->at + 1, written->length - 1); /* without the first comma */
    out->failed = out->failed || written->failed;
    text_format(out, "\n],\"cut_short\":%s}", cut_short ? "true" : "false");
    json_close_tables(out, refused);
}
