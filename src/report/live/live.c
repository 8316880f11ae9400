#include "report/live/live.h"

#include "report/live/base64.h"
#include "report/live/live_data.h"

#include <string.h>

const char live_policy[] = "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:; worker-src blob:; "
                           "style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'";

bool live_is_built(void)
{
    return live_engine.length > 0;
}

static void put_part(text *out, const char *before, const live_part *part, const char *after)
{
    text_put(out, before);
    text_add(out, (const char *)part->bytes, part->length);
    text_put(out, after);
}

void live_open(text *out)
{
    put_part(out, "<style id=\"live-style\">\n", &live_style, "</style>\n");
    text_put(out, "<script type=\"application/octet-stream\" id=\"live-engine\">");
    base64_put(out, live_engine.bytes, live_engine.length);
    text_put(out, "</script>\n<script type=\"text/plain\" id=\"live-inputs\">\n");
}

void live_word(text *out, const char *word)
{
    text_put(out, "word ");
    base64_put(out, word, strlen(word));
    text_char(out, '\n');
}

void live_file(text *out, const char *kind, const char *name, const char *bytes, size_t n)
{
    text_format(out, "%s ", kind);
    base64_put(out, name, strlen(name));
    text_char(out, ' ');
    base64_put(out, bytes, n);
    text_char(out, '\n');
}

void live_close(text *out)
{
    text_put(out, "</script>\n");
    put_part(out, "<script id=\"live-loader\">\n", &live_loader, "</script>\n");
    put_part(out, "<script id=\"live-script\">\n", &live_script, "</script>\n");
}
