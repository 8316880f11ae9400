#include "engine/glances_wide.h"

#ifdef GLANCES_WIDE
#pragma GCC target("avx2")
#define GLANCES_AT glances_avx2
#define GLANCES_SCOPE
#define LANES 4
#include "engine/glances_body.h"
#endif
