#include "report/caution.h"

const char caution[] = "An aid to judgement, no substitute for the rule book, local codes and a licensed engineer. "
                       "Elastic model; it does not cover fatigue, cracks, weld defects, dents or impact.";
