/* Along the tube v'''' + z (v + y0)'' = q and M = -v'', with z = P L^2/EI, so that M'' = -z M - w - s: w is the spread load and
 * s a half wave, those that a bow acts like included. Between two borders nothing else acts. */
#include "plain.h"
#include <string.h>

enum { MOVED, TURN, MOMENT, SHEAR, SPREAD, COSINE, SINE, ENTRIES }; /* a state: v, v', M, M', w, and s with its companion */
enum { PARTS = 64, CUTS_MOST = 54, SCAN = 200, SCAN_AGAIN = 8, TUBE = 0, WELD, WHOLE };
static const double pi = 3.14159265358979323846, endless = INFINITY, none = NAN, shortest = 1e-15;
int plain_stations = 144;
typedef double complex vector;
typedef struct beam { int parts; bool weld[PARTS]; double z, border[PARTS + 1], determinant; vector at[PARTS][ENTRIES]; } beam;
typedef struct tops { plain_peak of[WHOLE + 1]; } tops;

static double product(vector p, vector q) { return creal(p) * creal(q) + cimag(p) * cimag(q); }
static double push_at(const plain_tube *t, double factor) { return factor * t->m.compression - t->tension; }
static vector toward(double size, double clock) { return size * (cos(clock) + (vector)I * sin(clock)); }
static double dense_at_ends(double share) { return share * share * (3 - 2 * share); }

/* The state at x beyond y, by its power series. */
static void advance(double z, double x, const vector y[], vector next[])
{
    const double rate = x * sqrt(fabs(z) + pi * pi);
    vector term[ENTRIES];
    for (int r = 0; r < ENTRIES; r++) term[r] = next[r] = y[r];
    for (double n = 1, size = 1; size > 1e-17; n++, size *= n > 3 ? rate / (n - 3) : 1) {
        const vector bend = -z * term[MOMENT] - term[SPREAD] - term[SINE];
        const vector slope[] = {term[TURN], -term[MOMENT], term[SHEAR], bend, 0, -pi * term[SINE], pi * term[COSINE]};
        for (int r = 0; r < ENTRIES; r++) next[r] += term[r] = slope[r] * (x / n);
    }
}

/* The states just beyond the borders, where a load acts, a zone begins, or strong tension would make a state grow. Any
 * share of the first two solutions along the tube added to the third obeys the rules at A; those at B choose the shares. */
static beam solve(const plain_tube *t, double push, double factor)
{
    const double z = push * t->m.length / t->unit, longest = 1 / (2 + fmin(CUTS_MOST, sqrt(fmax(0, -z)) / 8));
    const double reach = t->m.weld_zone / t->m.length, marks[] = {reach, 1 - reach, t->point_at, t->kink_at};
    const vector at_a = t->give[0] * factor * t->moment[0] + t->hold[0] * t->turn[0];
    const vector at_b = t->give[1] * factor * t->moment[1] + t->hold[1] * t->turn[1], spread = factor * t->spread + z * t->arc;
    const vector start[3][ENTRIES] = {{0, t->give[0], -t->hold[0]}, {[SHEAR] = 1},
                                      {0, t->hold[0] * at_a, t->give[0] * at_a, 0, spread, z * t->wave}};
    vector along[PARTS + 1][3][ENTRIES], part[PARTS + 1][3][2] = {0}, rule[2][3];
    beam b;
    memcpy(along[b.parts = 0], start, sizeof start);
    for (double x = 0, to; x < 1; x = to) {
        const int i = b.parts++;
        vector(*y)[ENTRIES] = along[i + 1];
        to = fmin(1, x + longest);
        for (int k = 0; k < 4; k++)
            if (marks[k] > x + shortest && marks[k] < to - shortest) to = marks[k];
        b.border[i + 1] = to;
        b.weld[i] = x + to < 2 * reach || (!t->free_b && x + to > 2 - 2 * reach);
        for (int c = 0; c < 3; c++) advance(z, to - x, along[i][c], y[c]);
        if (fabs(to - t->point_at) <= shortest) y[2][SHEAR] -= factor * t->point;
        if (fabs(to - t->kink_at) <= shortest) y[2][SHEAR] -= z * t->kink;
        for (int c = 0; c < 3; c++) {
            for (int of = 0; of <= c && of < 2; of++) {
                vector *const p = &part[i + 1][c][of];
                for (int r = 0; r < SPREAD; r++) *p += y[c][r] * y[of][r];
                if (of == c) *p = csqrt(*p);
                for (int r = 0; r < SPREAD; r++) y[c][r] = of == c ? y[c][r] / *p : y[c][r] - *p * y[of][r];
            }
        }
    }
    for (int c = 0; c < 3; c++) {
        const vector *y = along[b.parts][c];
        rule[0][c] = t->free_b ? y[SHEAR] - z * (y[TURN] + (c == 2 ? t->tip : 0)) : y[MOVED];
        rule[1][c] = t->give[1] * y[MOMENT] - t->hold[1] * y[TURN] - (c == 2 ? at_b : 0);
    }
    b.determinant = creal(rule[0][0] * rule[1][1] - rule[0][1] * rule[1][0]);
    vector first = (rule[0][1] * rule[1][2] - rule[1][1] * rule[0][2]) / b.determinant;
    vector second = (rule[1][0] * rule[0][2] - rule[0][0] * rule[1][2]) / b.determinant;
    for (int i = b.parts - 1; i >= 0; i--) {
        second = (second - part[i + 1][2][1]) / part[i + 1][1][1];
        first = (first - part[i + 1][2][0] - part[i + 1][1][0] * second) / part[i + 1][0][0];
        for (int r = 0; r < ENTRIES; r++) b.at[i][r] = along[i][2][r] + first * along[i][0][r] + second * along[i][1][r];
        const double size = cabs(b.at[i][MOVED]) + cabs(b.at[i][TURN]) + cabs(b.at[i][MOMENT]) + cabs(b.at[i][SHEAR]);
        for (int r = 0; r < SPREAD; r++) b.at[i][r] *= cabs(b.at[i][r]) > 4e-15 * size; /* what is left of 0 by rounding */
    }
    b.z = z, b.border[0] = 0;
    return b;
}

static void raise_to(plain_peak *top, vector y, double at)
{
    const double size = cabs(y), clock = size > 0 ? fmod(carg(y) + 2 * pi, 2 * pi) : none;
    if (fabs(at - top->at) > 0.01) top->next = fmax(top->next, fmin(size, top->size));
    if (!(size <= top->size * (1 + 1e-12))) *top = (plain_peak){size, at, top->next, clock};
}

/* The largest of an entry in the tube, in its welds, and in both, at the borders and where it stops growing between two
 * stations; NaN where there is none, or no balance. What it can miss: a top and a valley between two stations. */
static tops find_tops(const plain_tube *t, double factor, int of, double unit)
{
    const double push = push_at(t, factor);
    const beam b = push < t->buckling_load ? solve(t, push, factor) : (beam){0};
    tops top = {{{none, none, -1, none}, {none, none, -1, none}, {none, none, -1, none}}};
    for (int p = 0; p < b.parts; p++) {
        const double length = b.border[p + 1] - b.border[p], steps = 8 + floor(plain_stations * length);
        vector y[ENTRIES], next[ENTRIES], best[ENTRIES];
        memcpy(y, b.at[p], sizeof y);
        for (int i = 0; i <= steps; i++, memcpy(y, next, sizeof y)) {
            const double from = length * dense_at_ends(i / steps), step = length * dense_at_ends((i + 1) / steps) - from;
            advance(b.z, step, y, next);
            const bool inside = i < steps && product(y[of], y[of + 1]) > 0 && product(next[of], next[of + 1]) < 0;
            double low = 0, high = inside ? step : 0;
            if (!inside && i > 0 && i < steps) continue;
            for (int n = 0; n < 18; n++) {
                advance(b.z, (low + high) / 2, y, best);
                *(product(best[of], best[of + 1]) > 0 ? &low : &high) = (low + high) / 2;
            }
            const double at = (b.border[p] + from + low) * t->m.length;
            raise_to(&top.of[b.weld[p]], unit * best[of], at);
            raise_to(&top.of[WHOLE], unit * best[of], at);
        }
    }
    return top;
}

plain_state plain_state_at(const plain_tube *t, double factor)
{
    const double push = push_at(t, factor);
    const tops top = find_tops(t, factor, MOMENT, t->unit); /* use grows with the moment: each zone's largest is enough */
    double use[] = {none, none}, stress[] = {none, none}, interaction = none;
    for (int i = TUBE; i <= WELD; i++) {
        const plain_zone *q = &t->zones[i];
        const double bending = top.of[i].size / q->modulus, shear = sqrt(3) * factor * t->m.torque * q->arm;
        const double pushed = hypot(fmax(bending + push / q->area, 0), shear), of_squash = pushed / q->squash;
        const double pulled = hypot(fmax(bending - push / q->area, 0), shear), of_yield = pulled / q->yield;
        if (!(bending >= 0)) continue;
        use[i] = fmax(of_squash, of_yield), stress[i] = of_squash >= of_yield ? pushed : pulled;
        interaction = fmax(interaction, push / t->column_load + hypot(bending, shear) / q->squash);
    }
    const bool most = use[WELD] > use[TUBE] || isnan(use[TUBE]);
    return (plain_state){use[most], use[!most], stress[most], stress[!most], interaction, top.of[WHOLE]};
}

plain_peak plain_moved(const plain_tube *t, double factor) { return find_tops(t, factor, MOVED, t->m.length).of[WHOLE]; }

void plain_place(const plain_tube *t, double factor, double at, double *moment, double *moved)
{
    const beam b = solve(t, push_at(t, factor), factor);
    vector y[ENTRIES];
    for (int i = 0; i < b.parts; i++)
        if (at >= b.border[i] * t->m.length) advance(b.z, at / t->m.length - b.border[i], b.at[i], y);
    *moment = cabs(y[MOMENT]) * t->unit;
    *moved = cabs(y[MOVED]) * t->m.length;
}

static double over_use(const plain_tube *t, double factor) { return plain_state_at(t, factor).use - 1; }
static double over_interaction(const plain_tube *t, double factor) { return plain_state_at(t, factor).interaction - 1; }

/* The smallest x in from ... end at which f is not below 0, endless if none. A scan, dense at both of its ends, and again
 * about each top. What it can miss: a hump that stays below -0.1 at the points of the first scan. */
static double first_reach(double (*f)(const plain_tube *, double), const plain_tube *t, double from, double end, int depth)
{
    double range = 1e-6, x[2] = {from, from}, value[2] = {-endless, f(t, from)};
    if (!(value[1] < 0)) return from;
    while (depth == 0 && range < 1e30 && from + range < end && f(t, from + range) < 0) range *= 2;
    if (range >= 1e30) return endless;
    if (depth == 0) end = fmin(from + range, end * (1 + 1e-12));
    for (int i = 1, count = depth == 0 ? SCAN : SCAN_AGAIN; i <= count; i++) {
        double high = from + (end - from) * dense_at_ends((double)i / count), next = high, now = f(t, next);
        const bool top = depth < 8 && value[1] > -0.1 && value[1] > value[0] + 1e-12 && value[1] >= now;
        const double inside = top ? first_reach(f, t, x[0], next, depth + 1) : endless;
        for (int n = 0; n < 55 && !(now < 0); n++) *(f(t, (x[1] + high) / 2) < 0 ? &x[1] : &high) = (x[1] + high) / 2;
        if (inside < endless || !(now < 0)) return fmin(inside, high);
        x[0] = x[1], x[1] = next, value[0] = value[1], value[1] = now;
    }
    return endless;
}

plain_factors plain_factors_of(const plain_tube *t)
{
    const double push = t->m.compression, zero = t->tension / push, from = push > 0 ? fmax(0, zero) : 0;
    const double column = push > 0 ? fmax(0, zero + t->column_load / push) : -t->tension >= t->column_load ? 0 : endless;
    if (-t->tension >= t->buckling_load) return (plain_factors){0, 0, 0};
    const double yield = first_reach(over_use, t, 0, push > 0 ? zero + t->buckling_load / push : endless, 0);
    const double end = push > 0 ? column : push < 0 ? zero : endless;
    return (plain_factors){yield, column, push > 0 || t->tension < 0 ? first_reach(over_interaction, t, from, end, 0) : endless};
}

static plain_zone zone_of(double od, double wall, double e, double push_yield, double yield)
{
    const double bore = od - 2 * wall, area = pi * wall * (od - wall), inertia = area * (od * od + bore * bore) / 16;
    const double ratio = od / wall, q = ratio <= 0.11 * e / push_yield ? 1 : fmin(1, 0.038 * e / (push_yield * ratio) + 2.0 / 3);
    return (plain_zone){area, inertia / (od / 2), od / 4 / inertia, q * push_yield, yield, q};
}

static double column_stress(const plain_tube *t, const rbow_material *k)
{
    const int curve = t->m.column_curve != RBOW_CURVE_OF_MATERIAL ? t->m.column_curve : (int)k->column_curve;
    const double e = k->elastic_modulus, s = t->slenderness, fc = t->zones[TUBE].squash, fe = pi * pi * e / (s * s);
    const double intercept = t->zones[TUBE].q * k->column_intercept, change = pi * sqrt(7 * e / (3 * intercept));
    const double imperfections[] = {0.13, 0.21, 0.34, 0.49, 0.76}, l = sqrt(fc / fe);
    if (curve == RBOW_CURVE_JOHNSON) return fc < 2 * fe ? fc * (1 - fc / (4 * fe)) : fe;
    if (curve == RBOW_CURVE_THREE_HALVES)
        return fmin(fc, s < change ? intercept - 4.0 / 3 * pi * pi * e * pow(change, -3.5) * pow(s, 1.5) : fe);
    if (curve == RBOW_CURVE_EULER) return fmin(fc, fe);
    if (curve == RBOW_CURVE_AISC) return fc / fe <= 2.25 ? pow(0.658, fc / fe) * fc : 0.877 * fe;
    const double phi = 0.5 * (1 + imperfections[curve - RBOW_CURVE_EN_A0] * (l - 0.2) + l * l);
    return l <= 0.2 ? fc : fc / (phi + sqrt(phi * phi - l * l));
}

/* lbf: where the determinant leaves the sign it has without push; with any ends the next is 9 EI/L^2 away. */
static double critical_of(plain_tube *t, bool soft_welds)
{
    const double ends[] = {t->m.end_a, t->free_b ? 0 : t->m.end_b}, start = pi * sqrt(2), soft = -start / tan(start / 2);
    for (int i = 0; i < 2; i++) {
        const bool is_stiff = isinf(ends[i]) || (ends[i] > RBOW_SOFT_WELD && ends[i] < 0 && !soft_welds);
        const double k = is_stiff ? 1e99 : ends[i] < 0 ? soft : ends[i] / t->unit;
        t->hold[i] = k / hypot(1, k), t->give[i] = 1 / hypot(1, k);
    }
    double load = 0, unloaded = solve(t, 0, 0).determinant;
    for (double step = 3 * t->unit / t->m.length; step > 1e-15 * load; step /= 2)
        while (solve(t, load + step, 0).determinant * unloaded > 0) load += step;
    return load;
}

plain_tube plain_tube_of(const rbow_member *m, const rbow_material *k)
{
    const double l = m->length, e = k->elastic_modulus;
    const vector offset = m->compression * toward(m->eccentricity, m->eccentricity_clock), bow = toward(m->bow, m->bow_clock) / l;
    plain_tube t = {.m = *m, .free_b = m->end_b <= RBOW_FREE, .point_at = m->point_at < 0 ? 0.5 : m->point_at / l};
    t.kink_at = m->bow_at < 0 ? 0.5 : m->bow_at / l;
    t.turn[0] = toward(m->miss_a, m->miss_a_clock) / l;
    t.turn[1] = toward(m->miss_b, m->miss_b_clock) / l;
    t.zones[0] = zone_of(m->od, m->wall, e, k->compression_yield, k->yield);
    t.zones[1] = zone_of(m->od - 2 * m->dressed, m->wall - m->dressed, e, k->weld_yield, k->weld_yield);
    t.inertia = t.zones[0].modulus * m->od / 2;
    t.radius = sqrt(t.inertia / t.zones[0].area);
    t.unit = e * t.inertia / l;
    t.weight = k->density * t.zones[0].area * l;
    t.tension = m->gap / (l / (e * t.zones[0].area) + 1 / m->gap_stiffness);
    t.moment[0] = (toward(m->moment_a, m->moment_clock) + (t.free_b ? 0 : offset)) / t.unit;
    t.moment[1] = (toward(m->moment_b, m->moment_clock) + offset) / t.unit;
    t.point = t.point_at < 1 || t.free_b ? toward(m->point_load, m->point_clock) * l / t.unit : 0; /* a held joint takes it */
    t.spread = (toward(m->spread_load, m->spread_clock) * l - t.weight * m->vertical_g * cos(m->slope)) * l / t.unit;
    if (m->bow_shape == RBOW_BOW_SINE) t.wave = pi * pi * bow, t.tip = -pi * bow;
    if (m->bow_shape == RBOW_BOW_ARC) t.arc = 8 * bow, t.tip = -4 * bow;
    if (m->bow_shape == RBOW_BOW_KINK) t.kink = bow * (1 / t.kink_at + 1 / (1 - t.kink_at)), t.tip = -bow / (1 - t.kink_at);
    t.critical_load = critical_of(&t, true);
    t.buckling_load = critical_of(&t, false);
    t.effective_length = pi * sqrt(t.unit * l / t.critical_load);
    t.slenderness = t.effective_length / t.radius;
    t.column_stress = column_stress(&t, k);
    t.column_load = t.column_stress * t.zones[0].area;
    return t;
}
