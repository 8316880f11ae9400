#include "command/frame/cut_asked.h"

#include "program/frame/frame_solve.h"
#include "program/say.h"
#include "table/names.h"
#include "table/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- values ------------------------------------------------------------------------------------------------ */

/* A length with its unit: no column gives it one. */
static bool take_length(const char *option, const char *word, double *value)
{
    measure m;
    const char *hint = measure_advice(word, strlen(word));
    if (!measure_read(word, strlen(word), DIM_LENGTH, &m) || !measure_in(&m, unit_at(DIM_LENGTH, 0), value)) {
        say("cut: --%s: '%s' is not a length with its unit, as in 12in%s%s", option, word, hint != NULL ? "; " : "", hint != NULL ? hint : "");
        return false;
    }
    if (m.has_unit || !(fabs(*value) > 0)) return true;
    say("cut: --%s: '%s' names no unit, and no column gives it one: write it behind the number, as in %sin", option, word, word);
    return false;
}

static bool take_angle(const char *option, const char *word, double *value)
{
    measure m;
    if (measure_read(word, strlen(word), DIM_ANGLE, &m) && measure_in(&m, unit_find(DIM_ANGLE, "deg", 3), value)) return true;
    say("cut: --%s: '%s' is not an angle in degrees", option, word);
    return false;
}

/* A size of at least 0 needs its clock, unless it is 0. */
static bool take_clock(const char *size_option, double size, const char *clock_option, const char *word, double *clock)
{
    *clock = NAN;
    if (!(size >= 0)) {
        say("cut: --%s must be at least 0; reverse its clock instead", size_option);
        return false;
    }
    if (word != NULL) return take_angle(clock_option, word, clock);
    if (!(size > 0)) return true;
    say("cut: --%s needs its clock: --%s", size_option, clock_option);
    return false;
}

static bool take_readings(cut_asked *a, const options *o)
{
    static const char *const names[] = {"moved", "opened"};
    const char *const words[] = {o->moved, o->opened};
    rbow_frame_faces *f = &a->readings;
    *f = (rbow_frame_faces){.turned = NAN, .turned_clock = NAN};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (words[i] != NULL) continue;
        say("cut: the readings of a cut are --moved, --opened and if you can --turned: --%s is missing", names[i]);
        return false;
    }
    if (o->turned == NULL && o->turned_clock != NULL) {
        say("cut: --turned_clock is the clock of --turned, which is missing");
        return false;
    }
    if (!take_length("moved", o->moved, &f->moved) || !take_length("opened", o->opened, &f->opened)
        || !take_clock("moved", f->moved, "moved_clock", o->moved_clock, &f->moved_clock))
        return false;
    if (o->turned != NULL
        && (!take_angle("turned", o->turned, &f->turned) || !take_clock("turned", f->turned, "turned_clock", o->turned_clock, &f->turned_clock)))
        return false;
    if (o->tube_count > 1) say("cut: readings are those of one cut: name one tube");
    else if (o->run != NULL) say("cut: readings are taken without run loads: leave --run out");
    else if (o->of_given) say("cut: with readings there is one table: leave --of out");
    else return true;
    return false;
}

bool cut_asked_read(cut_asked *a, const options *o)
{
    *a = (cut_asked){.cuts = calloc(o->tube_count + 1, sizeof *a->cuts), .cut_count = o->tube_count};
    a->has_readings = o->moved != NULL || o->moved_clock != NULL || o->turned != NULL || o->turned_clock != NULL || o->opened != NULL;
    if (a->cuts == NULL) {
        say("out of memory");
        return false;
    }
    if (o->tube_count == 0 || o->tube_count != o->at_count) {
        say("cut: name each tube with --tube and the place of its cut with --at: --tube is given %zu times and --at %zu times", o->tube_count,
            o->at_count);
        return false;
    }
    for (size_t i = 0; i < o->tube_count; i++)
        if (!take_length("at", o->ats[i], &a->cuts[i].at)) return false;
    return !a->has_readings || take_readings(a, o);
}

void cut_asked_close(cut_asked *a)
{
    free(a->cuts);
}

/* ---- names ------------------------------------------------------------------------------------------------- */

static bool find_tube(frame_build *b, const char *name, size_t *tube)
{
    *tube = frame_names_find(&b->tube_names, name);
    if (*tube != SIZE_MAX) return true;
    const char *nearest = frame_names_nearest(&b->tube_names, name);
    if (nearest != NULL) say("cut: %s has no tube '%s'; did you mean '%s'?", b->tables.paths[FRAME_TUBES], name, nearest);
    else say("cut: %s has no tube '%s'", b->tables.paths[FRAME_TUBES], name);
    return false;
}

static bool find_run(cut_asked *a, const frame_build *b, const char *name)
{
    nearest_name n = nearest_to(name);
    for (size_t i = 0; i < b->model.run_count; i++) {
        nearest_try(&n, b->model.runs[i].name);
        if (strcmp(b->model.runs[i].name, name) != 0) continue;
        a->run = &b->model.runs[i];
        return true;
    }
    if (n.best != NULL) say("cut: %s has no run '%s'; did you mean '%s'?", b->tables.paths[FRAME_LOADS], name, n.best);
    else say("cut: %s has no run '%s'", b->tables.paths[FRAME_LOADS], name);
    return false;
}

bool cut_asked_find(cut_asked *a, const options *o, frame_build *b)
{
    bool fine = true;
    for (size_t i = 0; i < a->cut_count; i++) fine = find_tube(b, o->tubes[i], &a->cuts[i].tube) && fine;
    return (o->run == NULL || find_run(a, b, o->run)) && fine;
}

/* ---- no answer --------------------------------------------------------------------------------------------- */

static double length_of(const frame_build *b, size_t tube)
{
    const double *from = b->joints[b->tubes[tube].from].at, *to = b->joints[b->tubes[tube].to].at;
    return hypot(hypot(to[RBOW_X] - from[RBOW_X], to[RBOW_Y] - from[RBOW_Y]), to[RBOW_Z] - from[RBOW_Z]);
}

static void refuse_stub(const cut_asked *a, const frame_build *b, const rbow_frame_cut_note *note)
{
    const size_t tube = a->cuts[note->cut].tube, joint = note->loose.joint;
    const rbow_frame_tube *t = &b->tubes[tube];
    const bool pinned = !((t->from == joint ? t->end_a : t->end_b) > 0);
    const char *name = b->model.tubes[tube].name, *at = b->model.joints[joint].name;
    if (pinned) say("cut: tube '%s' is pinned at joint '%s': the stub there is not held, so its face has no place", name, at);
    else say("cut: no tube is left that keeps joint '%s' from turning: the stub of '%s' there is not held", at, name);
}

void cut_asked_refuse(const cut_asked *a, const frame_build *b, rbow_status status, const rbow_frame_cut_note *note)
{
    const size_t tube = a->cuts[note->cut].tube;
    const char *name = b->model.tubes[tube].name, *joint = b->model.joints[note->loose.joint].name;
    switch ((int)status) {
        case RBOW_BAD_FRAME_CUT: {
            const double length = length_of(b, tube);
            say("cut: --at: tube '%s' is %.6g in (%.6g mm) long, and the cut must lie between its ends, not at %.6g in", name, length,
                25.4 * length, a->cuts[note->cut].at);
            break;
        }
        case RBOW_CUT_TWICE: say("cut: tube '%s' %s", name, rbow_status_text(status)); break;
        case RBOW_STUB_NOT_HELD: refuse_stub(a, b, note); break;
        case RBOW_PIECE_NOT_HELD:
            if (a->has_readings)
                say("cut: the piece with joint '%s' comes off, and nothing holds it: the readings say nothing, and nothing can have been "
                    "locked in", joint);
            else
                say("cut: the piece with joint '%s' comes off, and nothing holds it under run '%s': leave --run out, or add what holds it "
                    "to %s", joint, a->run->name, b->tables.paths[FRAME_JOINTS]);
            break;
        case RBOW_FRAME_NOT_HELD: frame_say_loose(b, &note->loose, "what is left of the frame"); break;
        case RBOW_UNSTABLE: say("cut: the frame buckles before this state: it has no answer"); break;
        case RBOW_MISS_A_TOO_STEEP:
        case RBOW_MISS_B_TOO_STEEP:
            say("cut: the readings ask for a miss with a slope of more than 10 deg: outside the model's range"); break;
        case RBOW_NO_MEMORY: say("out of memory"); break;
        default: say("cut: %s %s", rbow_status_input(status), rbow_status_text(status));
    }
}
