/* Which railbow this is. While the first number is 0 the second stands for changes that break callers: programs are
 * compiled anew for it. After that the first does. */
#ifndef RAILBOW_VERSION_H
#define RAILBOW_VERSION_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Of these headers. CMakeLists.txt reads them here too. */
#define RBOW_VERSION_MAJOR 0
#define RBOW_VERSION_MINOR 2
#define RBOW_VERSION_PATCH 0

/* The same as one number that grows, for #if, and as a text: "0.2.0". */
#define RBOW_VERSION_NUMBER (RBOW_VERSION_MAJOR * 1000000 + RBOW_VERSION_MINOR * 1000 + RBOW_VERSION_PATCH)
#define RBOW_VERSION_TEXT_OF(number) #number
#define RBOW_VERSION_JOIN(major, minor, patch)                                                                 \
    RBOW_VERSION_TEXT_OF(major) "." RBOW_VERSION_TEXT_OF(minor) "." RBOW_VERSION_TEXT_OF(patch)
#define RBOW_VERSION RBOW_VERSION_JOIN(RBOW_VERSION_MAJOR, RBOW_VERSION_MINOR, RBOW_VERSION_PATCH)

/* Of the library that the program runs with: its RBOW_VERSION. */
RBOW_API const char *rbow_version(void);

#ifdef __cplusplus
}
#endif

#endif
