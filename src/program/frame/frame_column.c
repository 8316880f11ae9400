#include "program/frame/frame_column.h"

#include "program/say.h"
#include "table/names.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* ---- whose column ------------------------------------------------------------------------------------------ */

static bool find_named(frame_names *names, const frame_build *b, int table, const char *option, const char *name, size_t *at)
{
    *at = frame_names_find(names, name);
    if (*at != SIZE_MAX) return true;
    const char *nearest = frame_names_nearest(names, name);
    if (nearest != NULL) say("--%s: there is no %s '%s' in %s; did you mean '%s'?", option, option, name, b->tables.paths[table], nearest);
    else say("--%s: there is no %s '%s' in %s", option, option, name, b->tables.paths[table]);
    return false;
}

static bool find_run(const frame_build *b, const char *name, size_t *run)
{
    nearest_name n = nearest_to(name);
    for (*run = 0; *run < b->model.run_count; ++*run) {
        if (strcmp(b->model.runs[*run].name, name) == 0) return true;
        nearest_try(&n, b->model.runs[*run].name);
    }
    if (n.best != NULL) say("--run: there is no run '%s' in %s; did you mean '%s'?", name, b->tables.paths[FRAME_LOADS], n.best);
    else say("--run: there is no run '%s' in %s", name, b->tables.paths[FRAME_LOADS]);
    return false;
}

bool frame_place_find(frame_place *p, frame_build *b, const options *o, const char *command)
{
    *p = (frame_place){.run = SIZE_MAX, .joint = SIZE_MAX, .tube = SIZE_MAX};
    if (o->tube == NULL && o->joint == NULL && o->run == NULL) {
        say("%s: name whose column it is with --tube, --joint or --run; see 'railbow help %s'", command, command);
        return false;
    }
    if (o->tube != NULL && o->joint != NULL) {
        say("%s: --tube and --joint: name one of them", command);
        return false;
    }
    if (o->tube != NULL && !find_named(&b->tube_names, b, FRAME_TUBES, "tube", o->tube, &p->tube)) return false;
    if (o->joint != NULL && !find_named(&b->joint_names, b, FRAME_JOINTS, "joint", o->joint, &p->joint)) return false;
    if (o->run != NULL && !find_run(b, o->run, &p->run)) return false;
    p->table = o->run != NULL ? FRAME_LOADS : o->tube != NULL ? FRAME_TUBES : FRAME_JOINTS;
    p->what = o->run != NULL ? "run" : o->tube != NULL ? "tube" : "joint";
    p->name = o->run != NULL ? o->run : o->tube != NULL ? o->tube : o->joint;
    return true;
}

/* ---- which column ------------------------------------------------------------------------------------------ */

static void say_unknown(const frame_build *b, const frame_place *place, const char *option, const char *name)
{
    static const char *const ways[FRAME_TABLES] = {[FRAME_JOINTS] = "--joint", [FRAME_TUBES] = "--tube", [FRAME_LOADS] = "--run"};
    const char *nearest = field_nearest(frame_lists[place->table], name);
    for (int table = 0; table < FRAME_TABLES; table++) {
        if (field_find(frame_lists[table], name) == NULL) continue;
        say("--%s: column '%s' is one of %s: name whose it is with %s", option, name, b->tables.paths[table], ways[table]);
        return;
    }
    if (nearest != NULL) say("--%s: %s has no column '%s'; did you mean '%s'?", option, frame_files[place->table], name, nearest);
    else say("--%s: %s has no column '%s'; see 'railbow columns'", option, frame_files[place->table], name);
}

static const field *find_column(const frame_build *b, const frame_place *place, const char *option, const char *name, size_t length)
{
    char copy[64];
    if (length >= sizeof copy) length = sizeof copy - 1;
    memcpy(copy, name, length);
    copy[length] = '\0';
    const field *f = field_find(frame_lists[place->table], copy);
    if (f == NULL) {
        say_unknown(b, place, option, copy);
        return NULL;
    }
    if (f->kind != FIELD_NUMBER && f->kind != FIELD_EITHER) {
        say("--%s: column '%s' is not a number", option, f->name);
        return NULL;
    }
    if (place->table == FRAME_LOADS && frame_load_acts(f) == 0) {
        say("--%s: column '%s' is no load: it is %s", option, f->name, frame_load_is_for_life(f) ? "for life" : "what the margin is held against");
        return NULL;
    }
    return f;
}

/* ---- its numbers ------------------------------------------------------------------------------------------- */

static bool is_meant(const frame_place *place, const rbow_frame_load *l, const field *f)
{
    if ((frame_load_acts(f) & 1U << l->acts_on) == 0) return false;
    if (place->joint != SIZE_MAX) return l->acts_on == RBOW_ACTS_ON_JOINT && l->index == place->joint;
    return place->tube == SIZE_MAX || (l->acts_on == RBOW_ACTS_ON_TUBE && l->index == place->tube);
}

/* Of the run's rows that could have the column those that give it, else the only one. */
static bool take_loads(frame_column *c, const frame_problem *p, const frame_place *place, const char *option)
{
    const size_t first = (size_t)(p->runs[place->run].loads - p->loads), count = p->runs[place->run].load_count;
    size_t meant = 0, given = 0;
    for (size_t i = 0; i < count; i++) {
        const frame_parameter at = {FRAME_LOADS, first + i, c->field->offset};
        if (!is_meant(place, &p->loads[first + i], c->field)) continue;
        const double value = frame_parameter_get(p, at);
        const bool gives = value < c->field->fallback || value > c->field->fallback;
        meant++;
        if (gives) c->at[given++] = at;
        else if (given == 0) c->at[0] = at;
    }
    c->count = given > 0 ? given : meant;
    if (c->count == 1 || given > 0) return true;
    if (meant == 0) say("--%s: run '%s' has no row that could give %s there", option, place->name, c->field->name);
    else say("--%s: no row of run '%s' gives %s: name one with --joint or --tube", option, place->name, c->field->name);
    return false;
}

static double length_of(const frame_problem *p, size_t tube)
{
    const double *a = p->joints[p->tubes[tube].from].at, *b = p->joints[p->tubes[tube].to].at;
    return hypot(hypot(b[RBOW_X] - a[RBOW_X], b[RBOW_Y] - a[RBOW_Y]), b[RBOW_Z] - a[RBOW_Z]);
}

/* An empty cell means what its default is. */
static double resolved(const frame_problem *p, frame_parameter at)
{
    const double value = frame_parameter_get(p, at);
    if (at.table == FRAME_JOINTS || !(value <= RBOW_UNSET) || isinf(value)) return value;
    if (at.table == FRAME_LOADS) return length_of(p, p->loads[at.row].index) / 2;
    if (at.offset == offsetof(frame_tube_row, tube.bow_at)) return length_of(p, at.row) / 2;
    if (at.offset == offsetof(frame_tube_row, tube.weld_zone)) return fmin(1, length_of(p, at.row) / 2);
    return NAN; /* a direction that is not known */
}

static double present(const frame_column *c, const frame_problem *p)
{
    const double now = resolved(p, c->at[0]);
    for (size_t i = 1; i < c->count; i++)
        if (resolved(p, c->at[i]) < now || resolved(p, c->at[i]) > now) return NAN;
    return now;
}

static size_t line_of(const frame_build *b, frame_parameter at)
{
    const frame_load_row *loads = (const void *)b->tables.tables[FRAME_LOADS].kept;
    return at.table == FRAME_JOINTS  ? b->model.joints[at.row].line
           : at.table == FRAME_TUBES ? b->model.tubes[at.row].line
                                     : loads[b->load_rows[at.row]].line;
}

bool frame_column_open(frame_column *c, const frame_build *b, const frame_problem *p, const frame_place *place, const char *option,
                       const char *name, size_t length)
{
    *c = (frame_column){.field = find_column(b, place, option, name, length)};
    if (c->field == NULL) return false;
    c->unit = (column_unit){.option = option, .field = c->field};
    c->at = malloc((p->load_count + 1) * sizeof *c->at);
    if (c->at == NULL) {
        say("out of memory");
        return false;
    }
    c->count = 1;
    c->at[0] = (frame_parameter){place->table, place->table == FRAME_TUBES ? place->tube : place->joint, c->field->offset};
    if (place->table == FRAME_LOADS && !take_loads(c, p, place, option)) return false;
    c->line = line_of(b, c->at[0]);
    c->now = present(c, p);
    return true;
}

void frame_column_close(frame_column *c)
{
    free(c->at);
}

bool frame_column_needs_unit(frame_column *c, const frame_build *b, const frame_place *place)
{
    const field *f = c->field;
    const size_t i = (size_t)(f - frame_lists[place->table]->fields);
    if (f->dimension == DIM_NONE) return true;
    c->unit.unit = i < FRAME_FIELDS_MOST ? b->tables.units[place->table][i] : NULL;
    if (c->unit.unit == NULL && f->dimension == DIM_ANGLE) c->unit.unit = unit_find(DIM_ANGLE, "deg", 3);
    if (c->unit.unit != NULL) return true;
    say("%s: names no unit of %s, which the values of --%s would be in: write it behind each, as in 1%s", b->tables.paths[place->table],
        f->name, c->unit.option, unit_at(f->dimension, 0)->name);
    return false;
}
