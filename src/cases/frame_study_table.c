#include "cases/frame_study_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <string.h>

/* ---- compare ----------------------------------------------------------------------------------------------- */

static const field_word set_words[] = {{"all", FRAME_SET_ALL}, {"pick", FRAME_SET_PICK}, {NULL, 0}};

static const field compare_fields[] = {
    WORD(frame_compare_row, "set", set, set_words, "all: one wall for all tubes; pick: a part of the lightest set that holds"),
    TEXT(frame_compare_row, "part", part, "part of the pick"),
    NUMBER(frame_compare_row, "wall", wall, DIM_LENGTH, "wall tried, or picked for the part"),
    NUMBER(frame_compare_row, "weight", weight, DIM_MASS, "weight of all tubes, or of the part"),
    NUMBER(frame_compare_row, "weight_change", weight_change, DIM_MASS, "change from the frame, or the part, as given"),
    NUMBER(frame_compare_row, "margin", weakest.margin, DIM_NONE, "lowest margin of all tubes, or of the part's, in any run"),
    TEXT(frame_compare_row, "worst_tube", weakest.tube, "the tube that has it"),
    TEXT(frame_compare_row, "run", weakest.run, "the run in which"),
    TEXT(frame_compare_row, "governs", weakest.governs, "what sets that margin"),
    TEXT(frame_compare_row, "verdict", verdict, "holds, short, or not possible and why"),
};
const field_list frame_compare_list = FIELD_LIST("comparison of a frame", compare_fields, frame_compare_row);

/* ---- sweep ------------------------------------------------------------------------------------------------- */

static const field sweep_answers[] = {
    NUMBER(frame_sweep_row, "margin", weakest.margin, DIM_NONE, "lowest margin of all tubes that are judged, in all runs"),
    TEXT(frame_sweep_row, "worst_tube", weakest.tube, "the tube that has it"),
    TEXT(frame_sweep_row, "run", weakest.run, "the run in which"),
    TEXT(frame_sweep_row, "governs", weakest.governs, "what sets that margin"),
    WORD(frame_sweep_row, "verdict", weakest.verdict, verdict_words, "holds if each of these tubes holds, else short"),
};

_Static_assert(SWEEP_COLUMNS_MOST + sizeof sweep_answers / sizeof *sweep_answers <= SWEEP_FIELDS_MOST, "every column has room");

void frame_sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count)
{
    for (size_t i = 0; i < count; i++)
        s->fields[i] = (field){.name = varied[i]->name, .kind = FIELD_NUMBER, .dimension = varied[i]->dimension,
                               .offset = offsetof(frame_sweep_row, value) + i * sizeof(double), .meaning = "value tried"};
    memcpy(&s->fields[count], sweep_answers, sizeof sweep_answers);
    s->list = (field_list){"sweep of a frame", s->fields, count + sizeof sweep_answers / sizeof *sweep_answers, sizeof(frame_sweep_row)};
}

void frame_sweep_subject(text *out, const frame_sweep_asked *asked)
{
    if (asked->judged == asked->tubes) text_put(out, "the frame");
    else text_format(out, "the judged part (%zu of %zu tubes)", asked->judged, asked->tubes);
}

/* ---- limit ------------------------------------------------------------------------------------------------- */

static const field_word limit_words[] = {{"found", LIMIT_FOUND}, {"never", LIMIT_NEVER}, {"already", LIMIT_ALREADY}, {NULL, 0}};

static const field limit_fields[] = {
    TEXT(frame_limit_row, "tube", name, "the tube whose column was varied; joint or loads where it was theirs"),
    TEXT(frame_limit_row, "column", column, "column that was varied"),
    NUMBER(frame_limit_row, "limit", found.limit, DIM_NONE, "last value before the margin of any tube falls below the target"),
    NUMBER(frame_limit_row, "now", now, DIM_NONE, "present value of the column"),
    NUMBER(frame_limit_row, "room", room, DIM_NONE,
           "from now to the limit; negative if now is past it; empty if the frame is short outside the range"),
    WORD(frame_limit_row, "state", found.state, limit_words,
         "found; never: the frame holds to the end; already: it is short at the start"),
    TEXT(frame_limit_row, "gives_way", weakest.tube, "the tube that falls short first past the limit"),
    TEXT(frame_limit_row, "run", weakest.run, "the run in which"),
    TEXT(frame_limit_row, "governs", weakest.governs, "what sets its margin there"),
};

_Static_assert(sizeof limit_fields == sizeof(((frame_limit_columns *)NULL)->fields), "every column has room");

void frame_limit_columns_fill(frame_limit_columns *l, const field *column, const char *what)
{
    memcpy(l->fields, limit_fields, sizeof limit_fields);
    l->fields[0].name = what;
    for (size_t i = 0; i < sizeof limit_fields / sizeof *limit_fields; i++)
        if (l->fields[i].kind == FIELD_NUMBER) l->fields[i].dimension = column->dimension;
    l->list = (field_list){"limit of a frame", l->fields, sizeof limit_fields / sizeof *limit_fields, sizeof(frame_limit_row)};
}

bool frame_limit_is_past(const frame_limit_row *r)
{
    return r->short_now || r->found.state == LIMIT_ALREADY || (r->found.state == LIMIT_FOUND && r->room < 0);
}
