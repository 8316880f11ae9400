#include "cases/section_table.h"

#include "cases/field_lines.h"

#define SECTION(at, dimension_, meaning_) NUMBER(section_row, #at, section.at, dimension_, meaning_)

static const field section_fields[] = {
    SECTION(od, DIM_LENGTH, "outside diameter"),
    SECTION(wall, DIM_LENGTH, "wall thickness"),
    SECTION(bore, DIM_LENGTH, "inside diameter"),
    SECTION(area, DIM_AREA, "cross-section of the wall"),
    SECTION(inertia, DIM_INERTIA, "second moment of area, I"),
    SECTION(section_modulus, DIM_SECTION_MODULUS, "elastic section modulus, S = I/(od/2)"),
    SECTION(plastic_modulus, DIM_SECTION_MODULUS, "plastic section modulus, Z"),
    SECTION(polar_inertia, DIM_INERTIA, "polar second moment of area, J = 2 I"),
    SECTION(radius, DIM_LENGTH, "radius of gyration, r"),
    NUMBER(section_row, "weight_per_length", weight_per_length, DIM_MASS_PER_LENGTH, "weight per length of tube"),
    SECTION(diameter_to_wall, DIM_NONE, "D/t"),
};

const field_list section_list = FIELD_LIST("section", section_fields, section_row);
