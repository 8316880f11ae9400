#include "program/frame/frame_rows.h"

#include "program/say.h"
#include "table/messages.h"

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

void frame_refuse(text *complaints, const frame_build *b, int table, size_t line, const char *column, const char *format, ...)
{
    text words = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&words, format, arguments);
    va_end(arguments);
    message_add(complaints, b->tables.paths[table], line, column, "%s", text_string(&words, &complaints->failed));
    text_free(&words);
}

/* ---- names ----------------------------------------------------------------------------------------------- */

static void refuse_twice(text *complaints, const frame_build *b, int table, size_t line, const char *name, size_t before)
{
    text quoted = {0};
    text_quote(&quoted, name, strlen(name));
    frame_refuse(complaints, b, table, line, frame_lists[table]->fields[0].name, "%s stands in line %zu already",
                 text_string(&quoted, &complaints->failed), before);
    text_free(&quoted);
}

void frame_put_unknown(text *out, frame_build *b, int named_in, const char *name)
{
    const char *near = frame_names_nearest(named_in == FRAME_JOINTS ? &b->joint_names : &b->tube_names, name);
    text_quote(out, name, strlen(name));
    text_format(out, " is not in %s", frame_files[named_in]);
    if (near == NULL) return;
    text_put(out, "; did you mean ");
    text_quote(out, near, strlen(near));
    text_char(out, '?');
}

static void refuse_unknown(text *complaints, frame_build *b, int table, size_t line, const char *column, int named_in, const char *name)
{
    text words = {0};
    frame_put_unknown(&words, b, named_in, name);
    frame_refuse(complaints, b, table, line, column, "%s", text_string(&words, &complaints->failed));
    text_free(&words);
}

/* The row of a name. One that is not found is reported, unless the bad rows of its table may have it. */
static size_t find(frame_build *b, text *complaints, int table, size_t line, const char *column, int named_in, const char *name)
{
    const size_t found = frame_names_find(named_in == FRAME_JOINTS ? &b->joint_names : &b->tube_names, name);
    if (found != SIZE_MAX) return found;
    b->references = false;
    if (b->tables.whole[named_in]) refuse_unknown(complaints, b, table, line, column, named_in, name);
    return SIZE_MAX;
}

static const char *column_at(int table, size_t offset)
{
    const field_list *l = frame_lists[table];
    for (size_t i = 0; i < l->count; i++)
        if (l->fields[i].offset == offset) return l->fields[i].name;
    return NULL;
}

static void resolve_joints(frame_build *b, text *complaints)
{
    for (size_t i = 0; i < b->model.joint_count; i++) {
        const joint_row *j = &b->model.joints[i];
        const size_t first = frame_names_find(&b->joint_names, j->name);
        if (first != i) refuse_twice(complaints, b, FRAME_JOINTS, j->line, j->name, b->model.joints[first].line);
        b->joints[i] = j->joint;
    }
}

static void resolve_tube(frame_build *b, size_t i, const materials *m, text *complaints)
{
    const frame_tube_row *t = &b->model.tubes[i];
    rbow_frame_tube *tube = &b->tubes[i];
    const source_line at = {b->tables.paths[FRAME_TUBES], t->line};
    const size_t first = frame_names_find(&b->tube_names, t->name);
    if (first != i) refuse_twice(complaints, b, FRAME_TUBES, t->line, t->name, b->model.tubes[first].line);
    *tube = t->tube;
    tube->from = find(b, complaints, FRAME_TUBES, t->line, column_at(FRAME_TUBES, offsetof(frame_tube_row, from)), FRAME_JOINTS, t->from);
    tube->to = find(b, complaints, FRAME_TUBES, t->line, column_at(FRAME_TUBES, offsetof(frame_tube_row, to)), FRAME_JOINTS, t->to);
    tube->material = materials_for(m, t->material, t->tube.wall, &at, complaints);
}

/* ---- what loads act on ------------------------------------------------------------------------------------- */

static bool is_given(const field *f, const frame_load_row *from)
{
    const double value = field_get(f, from);
    return value < f->fallback || value > f->fallback;
}

/* Loads in columns that the row's joint or tube cannot take. */
static void check_columns(const frame_build *b, const frame_load_row *from, int acts_on, text *complaints)
{
    static const char *const wanted[] = {
        [1 << RBOW_ACTS_ON_JOINT] = "acts on a joint: name one in this row",
        [1 << RBOW_ACTS_ON_TUBE] = "acts on a tube: name one in this row",
        [1 << RBOW_ACTS_ON_JOINT | 1 << RBOW_ACTS_ON_TUBE] = "acts on a joint or a tube: name one in this row",
        [1 << RBOW_ACTS_ON_ALL] = "acts on the whole frame: give it in a row of the run that names no joint and no tube",
    };
    for (size_t i = 0; i < frame_load_list.count; i++) {
        const field *f = &frame_load_list.fields[i];
        const unsigned acts = frame_load_acts(f);
        if (acts == 0 || (acts & 1U << acts_on) != 0 || !is_given(f, from)) continue;
        const bool named = acts_on != RBOW_ACTS_ON_ALL && acts != 1U << RBOW_ACTS_ON_ALL;
        frame_refuse(complaints, b, FRAME_LOADS, from->line, f->name, "%s%s", wanted[acts],
                     !named ? "" : acts_on == RBOW_ACTS_ON_JOINT ? " in place of the joint" : " in place of the tube");
    }
}

static void resolve_load(frame_build *b, const frame_load_row *from, rbow_frame_load *load, text *complaints)
{
    const bool joint = *from->joint != '\0', tube = *from->tube != '\0';
    const char *joint_column = column_at(FRAME_LOADS, offsetof(frame_load_row, joint));
    const char *tube_column = column_at(FRAME_LOADS, offsetof(frame_load_row, tube));
    *load = from->load;
    load->acts_on = joint ? RBOW_ACTS_ON_JOINT : tube ? RBOW_ACTS_ON_TUBE : RBOW_ACTS_ON_ALL;
    load->index = 0;
    if (joint) load->index = find(b, complaints, FRAME_LOADS, from->line, joint_column, FRAME_JOINTS, from->joint);
    if (tube) {
        const size_t index = find(b, complaints, FRAME_LOADS, from->line, tube_column, FRAME_TUBES, from->tube);
        if (!joint) load->index = index;
    }
    if (joint && tube)
        frame_refuse(complaints, b, FRAME_LOADS, from->line, tube_column, "the row names a joint too: a load acts on one of them");
    else
        check_columns(b, from, load->acts_on, complaints);
}

void frame_resolve(frame_build *b, const materials *m, text *complaints)
{
    b->references = true;
    resolve_joints(b, complaints);
    for (size_t i = 0; i < b->model.tube_count; i++) resolve_tube(b, i, m, complaints);
    const frame_load_row *given = (const void *)b->tables.tables[FRAME_LOADS].kept;
    size_t *place = malloc((b->tables.tables[FRAME_LOADS].count + 1) * sizeof *place);
    if (place == NULL) {
        complaints->failed = true;
        return;
    }
    for (size_t i = 0; i < b->tables.tables[FRAME_LOADS].count; i++) place[b->load_rows[i]] = i;
    for (size_t i = 0; i < b->tables.tables[FRAME_LOADS].count; i++)
        resolve_load(b, &given[i], &b->loads[place[i]], complaints);
    free(place);
}

/* ---- faults ------------------------------------------------------------------------------------------------ */

/* Whether the fault is told already, or may be one only because a table is not whole or a name is unknown. */
static bool is_told(const frame_build *b, const rbow_frame_fault *f, bool stand_in)
{
    switch (f->status) {
        case RBOW_NO_SUCH_JOINT:
        case RBOW_NO_SUCH_PLACE:
        case RBOW_BAD_MATERIAL:
        case RBOW_NO_FRAME: return true;
        case RBOW_WALL_RULE:
        case RBOW_DRESSED_RULE: return stand_in;
        case RBOW_JOINT_ALONE:
            if (frame_names_find(&b->joint_names, b->model.joints[f->index].name) != f->index) return true; /* named twice */
            return !b->references || !b->tables.whole[FRAME_TUBES];
        case RBOW_MOMENT_NOT_TAKEN: return !b->references || !b->tables.whole[FRAME_TUBES];
        default: return false;
    }
}

/* A moment's own column, where the fault names the first of the three. */
static const char *column_of(const rbow_frame_fault *f, const rbow_frame_load *load)
{
    const char *input = rbow_status_input(f->status);
    if (f->status != RBOW_MOMENT_NOT_TAKEN || fabs(load->moment[RBOW_X]) > 0) return input;
    const int axis = fabs(load->moment[RBOW_Y]) > 0 ? RBOW_Y : RBOW_Z;
    return column_at(FRAME_LOADS, offsetof(frame_load_row, load.moment) + (size_t)axis * sizeof(double));
}

static void say_fault(const frame_build *b, const rbow_frame_fault *f, const frame_run_row *run, text *complaints)
{
    const frame_load_row *given = (const void *)b->tables.tables[FRAME_LOADS].kept;
    const size_t load = run != NULL && f->part == RBOW_IN_LOAD ? (size_t)(run->run.loads - b->loads) + f->index : 0;
    const char *column = run != NULL && f->part == RBOW_IN_LOAD ? column_of(f, &b->loads[load]) : rbow_status_input(f->status);
    text quoted = {0};
    int table = FRAME_LOADS;
    size_t line = run != NULL ? run->line : 0;
    if (f->part == RBOW_IN_LOAD) line = given[b->load_rows[load]].line;
    if (f->part == RBOW_IN_TUBE) {
        table = FRAME_TUBES;
        line = b->model.tubes[f->index].line;
    }
    if (f->part == RBOW_IN_JOINT) {
        table = FRAME_JOINTS;
        line = b->model.joints[f->index].line;
        text_quote(&quoted, b->model.joints[f->index].name, strlen(b->model.joints[f->index].name));
        text_char(&quoted, ' ');
    }
    frame_refuse(complaints, b, table, line, *column != '\0' ? column : NULL, "%s%s", quoted.at != NULL ? quoted.at : "",
                 rbow_status_text(f->status));
    text_free(&quoted);
}

/* Tubes of unknown material get a stand-in, so that their other faults are found as well. */
static bool *lend_materials(frame_build *b, const materials *m)
{
    bool *lent = calloc(b->model.tube_count + 1, sizeof *lent);
    for (size_t i = 0; lent != NULL && i < b->model.tube_count; i++) {
        lent[i] = b->tubes[i].material == NULL;
        if (lent[i]) b->tubes[i].material = m->list;
    }
    return lent;
}

static void say_faults(const frame_build *b, const frame_run_row *run, const bool *lent, text *complaints)
{
    const rbow_frame *frame = &b->model.frame;
    const size_t count = run != NULL ? rbow_frame_run_faults(frame, &run->run, NULL, 0) : rbow_frame_faults(frame, NULL, 0);
    rbow_frame_fault *faults = malloc((count + 1) * sizeof *faults);
    if (faults == NULL) {
        complaints->failed = true;
        return;
    }
    if (run != NULL) rbow_frame_run_faults(frame, &run->run, faults, count);
    else rbow_frame_faults(frame, faults, count);
    for (size_t i = 0; i < count; i++) {
        const bool stand_in = faults[i].part == RBOW_IN_TUBE && lent[faults[i].index];
        if (!is_told(b, &faults[i], stand_in)) say_fault(b, &faults[i], run, complaints);
    }
    free(faults);
}

void frame_faults_say(frame_build *b, const materials *m, text *complaints)
{
    bool *lent = lend_materials(b, m);
    if (lent == NULL) {
        complaints->failed = true;
        return;
    }
    say_faults(b, NULL, lent, complaints);
    for (size_t i = 0; i < b->model.run_count; i++) say_faults(b, &b->model.runs[i], lent, complaints);
    for (size_t i = 0; i < b->model.tube_count; i++)
        if (lent[i]) b->tubes[i].material = NULL;
    free(lent);
}
