#include "engine/glances_wide.h"

#ifdef GLANCES_WIDE
#pragma GCC target("avx512f,avx512dq")
#define GLANCES_AT glances_avx512
#define GLANCES_SCOPE
#define LANES 8
#include "engine/glances_body.h"
#endif
