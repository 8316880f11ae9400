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

void json_open(text *out, const field_list *list, unit_system units)
{
    cJSON *object = cJSON_CreateObject();
    bool complete = object != NULL;
    for (size_t i = 0; i < list->count && complete; i++) {
        const field *f = &list->fields[i];
        const unit *shown = unit_shown(f->dimension, units);
        if (shown != NULL) complete = cJSON_AddStringToObject(object, f->name, shown->name) != NULL;
    }
    text_put(out, "{\"units\":");
    put_object(out, object, complete);
    text_put(out, ",\"rows\":[");
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

void json_close(text *out)
{
    text_put(out, "\n]}\n");
}
