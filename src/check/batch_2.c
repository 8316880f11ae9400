/* Two load factors at once, for any processor. */
#define LANES 2
#define VERSION(name) name##_2
#include "check/batch_body.h"
