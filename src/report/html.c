#include "report/html.h"

#include "table/utf8.h"

#include <string.h>

static void put_escaped(text *out, const char *bytes, size_t n)
{
    switch (n == 1 ? *bytes : '\0') {
        case '&': text_put(out, "&amp;"); break;
        case '<': text_put(out, "&lt;"); break;
        case '>': text_put(out, "&gt;"); break;
        case '"': text_put(out, "&quot;"); break;
        case '\'': text_put(out, "&#39;"); break;
        case '\t':
        case '\n': text_char(out, ' '); break;
        default:
            text_add_printable(out, bytes, n);
    }
}

/* U+FFFE and U+FFFF are characters of UTF-8, not of XML. */
static bool is_no_character(const char *bytes, size_t n)
{
    return n == 3 && (memcmp(bytes, "\xEF\xBF\xBE", 3) == 0 || memcmp(bytes, "\xEF\xBF\xBF", 3) == 0);
}

void html_text(text *out, const char *string)
{
    for (size_t left = strlen(string); left > 0;) {
        const size_t n = utf8_character(string, left), taken = n > 0 ? n : 1;
        if (n == 0)
            text_put(out, "\xEF\xBF\xBD");
        else if (!is_no_character(string, n))
            put_escaped(out, string, n);
        string += taken;
        left -= taken;
    }
}

void html_unit(text *out, const char *name)
{
    static const char *const raised[] = {"²", "³", "⁴"};
    for (; *name != '\0'; name++) {
        if (name[0] == '^' && name[1] >= '2' && name[1] <= '4')
            text_put(out, raised[*++name - '2']);
        else
            text_add(out, name, 1);
    }
}

void html_element(text *out, const char *name, const char *style, const char *string)
{
    text_format(out, "<%s", name);
    if (style != NULL) text_format(out, " class=\"%s\"", style);
    text_char(out, '>');
    html_text(out, string);
    text_format(out, "</%s>", name);
}
