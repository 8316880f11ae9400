#include "program/screen_of.h"

screen screen_of(const output *out, bool faults, const refused_rows *refused, text *words)
{
    if (faults && refused != NULL) refused_say(words, refused);
    return (screen){.width = out->width, .units = out->units, .colour = out->colour, .faults = faults, .refused = words->at};
}
