#include "table/unit.h"

#include "table/text.h"

#include <stdbool.h>
#include <string.h>

/* Exact by definition: the inch and the pound (international yard and pound agreement, 1959) and the
 * standard acceleration of gravity (3rd CGPM, 1901). Every factor below follows from these three. */
#define METRE_PER_INCH 0.0254
#define KILOGRAM_PER_POUND 0.45359237
#define STANDARD_GRAVITY 9.80665 /* m/s^2 */
#define NEWTON_PER_POUND 4.4482216152605 /* = KILOGRAM_PER_POUND x STANDARD_GRAVITY, all digits */
#define NEWTON_METRE_PER_INCH_POUND (NEWTON_PER_POUND * METRE_PER_INCH)
#define DEGREE (3.14159265358979323846 / 180)

/* One unit is times / over of the program's own; whole numbers where there are any, for these are exact. */
#define U(name, dimension, times, over) {name, dimension, (double)(times) / (over), times, over}

static const unit lengths[] = {
    U("in", DIM_LENGTH, 1, 1),
    U("ft", DIM_LENGTH, 12, 1),
    U("mm", DIM_LENGTH, 5, 127), /* 25.4 mm are an inch */
    U("cm", DIM_LENGTH, 50, 127),
    U("m", DIM_LENGTH, 5000, 127),
};
static const unit forces[] = {
    U("lbf", DIM_FORCE, 1, 1),
    U("kip", DIM_FORCE, 1000, 1),
    U("N", DIM_FORCE, 1, NEWTON_PER_POUND),
    U("kN", DIM_FORCE, 1000, NEWTON_PER_POUND),
};
static const unit stresses[] = {
    U("psi", DIM_STRESS, 1, 1),
    U("ksi", DIM_STRESS, 1000, 1),
    U("MPa", DIM_STRESS, 645.16, NEWTON_PER_POUND), /* 645.16 mm^2 are a square inch */
    U("GPa", DIM_STRESS, 645160, NEWTON_PER_POUND),
};
static const unit moments[] = {
    U("in-lbf", DIM_MOMENT, 1, 1),
    U("ft-lbf", DIM_MOMENT, 12, 1),
    U("N-m", DIM_MOMENT, 1, NEWTON_METRE_PER_INCH_POUND),
    U("N-mm", DIM_MOMENT, 0.001, NEWTON_METRE_PER_INCH_POUND),
    U("kN-m", DIM_MOMENT, 1000, NEWTON_METRE_PER_INCH_POUND),
};
static const unit forces_per_length[] = {
    U("lbf/in", DIM_FORCE_PER_LENGTH, 1, 1),
    U("lbf/ft", DIM_FORCE_PER_LENGTH, 1, 12),
    U("N/m", DIM_FORCE_PER_LENGTH, METRE_PER_INCH, NEWTON_PER_POUND),
    U("N/mm", DIM_FORCE_PER_LENGTH, 25.4, NEWTON_PER_POUND),
};
static const unit rotational_stiffnesses[] = {
    U("in-lbf/rad", DIM_ROTATIONAL_STIFFNESS, 1, 1),
    U("in-lbf/deg", DIM_ROTATIONAL_STIFFNESS, 1, DEGREE),
    U("N-m/rad", DIM_ROTATIONAL_STIFFNESS, 1, NEWTON_METRE_PER_INCH_POUND),
};
static const unit densities[] = {
    U("lb/in^3", DIM_DENSITY, 1, 1),
    U("kg/m^3", DIM_DENSITY, 0.000016387064, KILOGRAM_PER_POUND), /* m^3 in a cubic inch */
};
static const unit masses[] = {
    U("lb", DIM_MASS, 1, 1),
    U("kg", DIM_MASS, 1e8, 45359237),
};
static const unit masses_per_length[] = {
    U("lb/ft", DIM_MASS_PER_LENGTH, 1, 12),
    U("lb/in", DIM_MASS_PER_LENGTH, 1, 1),
    U("kg/m", DIM_MASS_PER_LENGTH, METRE_PER_INCH, KILOGRAM_PER_POUND),
};
static const unit areas[] = {
    U("in^2", DIM_AREA, 1, 1),
    U("mm^2", DIM_AREA, 25, 16129),
};
static const unit section_moduli[] = {
    U("in^3", DIM_SECTION_MODULUS, 1, 1),
    U("mm^3", DIM_SECTION_MODULUS, 125, 2048383),
};
static const unit inertias[] = {
    U("in^4", DIM_INERTIA, 1, 1),
    U("mm^4", DIM_INERTIA, 625, 260144641),
};
static const unit angles[] = {
    U("deg", DIM_ANGLE, DEGREE, 1),
    U("rad", DIM_ANGLE, 1, 1),
};
static const unit turns[] = {
    U("rad", DIM_TURN, 1, 1),
};

#define UNITS(list, us, si) {list, sizeof list / sizeof *list, {[UNITS_US] = &list[us], [UNITS_SI] = &list[si]}}

static const struct {
    const unit *list;
    size_t count;
    const unit *shown[2];
} units[DIM_COUNT] = {
    [DIM_LENGTH] = UNITS(lengths, 0, 2),
    [DIM_FORCE] = UNITS(forces, 0, 2),
    [DIM_STRESS] = UNITS(stresses, 0, 2),
    [DIM_MOMENT] = UNITS(moments, 0, 3),
    [DIM_FORCE_PER_LENGTH] = UNITS(forces_per_length, 0, 3),
    [DIM_ROTATIONAL_STIFFNESS] = UNITS(rotational_stiffnesses, 0, 2),
    [DIM_DENSITY] = UNITS(densities, 0, 1),
    [DIM_MASS] = UNITS(masses, 0, 1),
    [DIM_MASS_PER_LENGTH] = UNITS(masses_per_length, 0, 2),
    [DIM_AREA] = UNITS(areas, 0, 1),
    [DIM_SECTION_MODULUS] = UNITS(section_moduli, 0, 1),
    [DIM_INERTIA] = UNITS(inertias, 0, 1),
    [DIM_ANGLE] = UNITS(angles, 0, 0),
    [DIM_TURN] = UNITS(turns, 0, 0),
};

static bool is_own(const unit *u)
{
    return !(u->factor < 1) && !(u->factor > 1);
}

double unit_to_own(const unit *u, double value)
{
    return is_own(u) ? value : value * u->times / u->over;
}

double unit_from_own(const unit *u, double own)
{
    return is_own(u) ? own : own * u->over / u->times;
}

const unit *unit_at(dimension d, size_t i)
{
    return i < units[d].count ? &units[d].list[i] : NULL;
}

const unit *unit_shown(dimension d, unit_system system)
{
    return units[d].shown[system];
}

const unit *unit_find(dimension d, const char *name, size_t length)
{
    for (size_t i = 0; i < units[d].count; i++) {
        const unit *u = &units[d].list[i];
        if (strlen(u->name) == length && memcmp(u->name, name, length) == 0) return u;
    }
    return NULL;
}

void unit_say_names(text *out, dimension d)
{
    for (size_t i = 0; i < units[d].count; i++)
        text_item(out, i, units[d].count, "or", units[d].list[i].name);
}
