#include "command/results.h"

#include "report/json.h"
#include "table/writer.h"

bool results_open(output *out, const field_list *list)
{
    text t = {0};
    if (out->format == FORMAT_CSV) csv_header(&t, list, out->units);
    if (out->format == FORMAT_JSON) json_open(&t, list, out->units);
    const bool fine = output_text(out, &t);
    text_free(&t);
    out->drop_comma = out->format == FORMAT_JSON;
    return fine;
}

bool results_close(output *out)
{
    text t = {0};
    out->drop_comma = false;
    if (out->format == FORMAT_JSON) json_close(&t);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

void results_row(text *written, const output *out, const field_list *list, const void *record)
{
    if (out->format == FORMAT_CSV) csv_row(written, list, record, out->units);
    if (out->format == FORMAT_JSON) json_row(written, list, record, out->units);
}
