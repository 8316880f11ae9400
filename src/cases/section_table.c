#include "cases/section_table.h"

#include "cases/field_lines.h"

static const field section_fields[] = {
    NUMBER(section_row, "od", section.od, DIM_LENGTH, "outside diameter"),
    NUMBER(section_row, "wall", section.wall, DIM_LENGTH, "wall thickness"),
    NUMBER(section_row, "bore", section.bore, DIM_LENGTH, "inside diameter"),
    NUMBER(section_row, "area", section.area, DIM_AREA, "of the wall"),
    NUMBER(section_row, "inertia", section.inertia, DIM_INERTIA, "second moment of area I"),
    NUMBER(section_row, "section_modulus", section.section_modulus, DIM_SECTION_MODULUS, "S = I/(od/2)"),
    NUMBER(section_row, "plastic_modulus", section.plastic_modulus, DIM_SECTION_MODULUS, "Z"),
    NUMBER(section_row, "polar_inertia", section.polar_inertia, DIM_INERTIA, "J = 2I"),
    NUMBER(section_row, "radius", section.radius, DIM_LENGTH, "radius of gyration r"),
    NUMBER(section_row, "weight_per_length", weight_per_length, DIM_MASS_PER_LENGTH, "of steel"),
    NUMBER(section_row, "diameter_to_wall", section.diameter_to_wall, DIM_NONE, "D/t"),
};

const field_list section_list = FIELD_LIST("section", section_fields, section_row);
