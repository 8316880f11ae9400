#include "command/frame/studies.h"

#include "program/frame/frame_read.h"
#include "program/say.h"

const char *frame_operand(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return o->operands[i];
    return NULL;
}

bool is_of_cases(const char *command, const options *o)
{
    if (o->tube == NULL && o->joint == NULL && o->run == NULL) return true;
    say("%s: --tube, --joint and --run are for a frame: name its folder", command);
    return false;
}
