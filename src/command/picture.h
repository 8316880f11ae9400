/* What the page draws of one load case, worked out. */
#ifndef RAILBOW_COMMAND_PICTURE_H
#define RAILBOW_COMMAND_PICTURE_H

#include "report/page.h"

#include <railbow/member.h>

void picture_of(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r);

#endif
