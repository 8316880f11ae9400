#include "table/separator.h"

#include <stddef.h>
#include <string.h>

static const char signs[] = ",;\t";

bool is_separator(char sign)
{
    return sign != '\0' && strchr(signs, sign) != NULL;
}

char separator_named(const char *line)
{
    const bool quoted = *line == '"';
    line += quoted;
    if (strncmp(line, "sep=", 4) != 0 && strncmp(line, "SEP=", 4) != 0) return 0;
    const char named = line[4];
    if (named == '\0' || named == '\n' || named == '\r') return 0;
    const char *behind = line + 5;
    if (quoted && *behind == '"') behind++;
    return behind[strspn(behind, ",;\t\r\n")] == '\0' ? named : 0;
}

char separator_of(const char *header)
{
    size_t counts[sizeof signs - 1] = {0}, best = 0;
    bool quoted = false;
    for (; *header != '\0'; header++) {
        quoted ^= *header == '"';
        const char *sign = quoted ? NULL : strchr(signs, *header);
        if (sign != NULL) counts[sign - signs]++;
    }
    for (size_t i = 1; i < sizeof counts / sizeof *counts; i++)
        if (counts[i] > counts[best]) best = i;
    return signs[best];
}
