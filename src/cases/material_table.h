/* Materials as a table. */
#ifndef RAILBOW_CASES_MATERIAL_TABLE_H
#define RAILBOW_CASES_MATERIAL_TABLE_H

#include "table/field.h"

#include <railbow/material.h>

extern const field_list material_list; /* of rbow_material */

#endif
