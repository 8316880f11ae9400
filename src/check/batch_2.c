/* Two load factors side by side: any processor. */
#define LANES 2
#define VERSION(name) name##_2
#include "check/batch_body.h"
