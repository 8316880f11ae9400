/* The version. While the first number is 0, a new second number means a change that breaks callers: they must be compiled
 * again. Later, a new first number means this. */
#ifndef RAILBOW_VERSION_H
#define RAILBOW_VERSION_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The version of these headers. CMakeLists.txt reads it from here. */
#define RBOW_VERSION_MAJOR 0
#define RBOW_VERSION_MINOR 2
#define RBOW_VERSION_PATCH 0

/* The version as one number that grows, for #if, and as text: "0.2.0". */
#define RBOW_VERSION_NUMBER (RBOW_VERSION_MAJOR * 1000000 + RBOW_VERSION_MINOR * 1000 + RBOW_VERSION_PATCH)
#define RBOW_VERSION_TEXT_OF(number) #number
#define RBOW_VERSION_JOIN(major, minor, patch)                                                                 \
    RBOW_VERSION_TEXT_OF(major) "." RBOW_VERSION_TEXT_OF(minor) "." RBOW_VERSION_TEXT_OF(patch)
#define RBOW_VERSION RBOW_VERSION_JOIN(RBOW_VERSION_MAJOR, RBOW_VERSION_MINOR, RBOW_VERSION_PATCH)

/* The version of the library that the program runs with: its RBOW_VERSION. */
RBOW_API const char *rbow_version(void);

#ifdef __cplusplus
}
#endif

#endif
