/* One load factor at a time: for any processor, and for strong tension. */
#define LANES 1
#define VERSION(name) name##_1
#include "check/batch_body.h"
