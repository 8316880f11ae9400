#include "command/frame/life_frame.h"

#include "program/exit_status.h"
#include "program/say.h"

int life_frame(const options *o, const char *folder)
{
    (void)o;
    say("life: %s: not yet of a frame", folder);
    return NO_VERDICT;
}
