#include <railbow/version.h>

const char *rbow_version(void)
{
    return RBOW_VERSION;
}
