#define _POSIX_C_SOURCE 200809L
#include "program/frame/frame_read.h"

#include "program/exit_status.h"
#include "program/pipeline.h"
#include "program/say.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

bool is_folder(const char *name)
{
    struct stat there;
    return stat(name, &there) == 0 && S_ISDIR(there.st_mode);
}

void frame_path(text *out, const char *folder, const char *file)
{
    const size_t length = strlen(folder);
    text_format(out, "%s%s%s", folder, length > 0 && folder[length - 1] == '/' ? "" : "/", file);
}

bool frame_tables_name(frame_tables *t, const char *folder)
{
    *t = (frame_tables){.folder = folder};
    for (int i = 0; i < FRAME_TABLES; i++) {
        text path = {0};
        frame_path(&path, folder, frame_files[i]);
        if (path.failed) {
            text_free(&path);
            say("out of memory");
            return false;
        }
        t->paths[i] = path.at;
    }
    return true;
}

typedef union record_room {
    joint_row joint;
    frame_tube_row tube;
    frame_load_row load;
} record_room;

static const size_t line_offsets[FRAME_TABLES] = {
    [FRAME_JOINTS] = offsetof(joint_row, line),
    [FRAME_TUBES] = offsetof(frame_tube_row, line),
    [FRAME_LOADS] = offsetof(frame_load_row, line),
};

typedef struct reading {
    frame_tables *tables;
    int table;
} reading;

static bool take_units(const void *context, const char *file, const reader *from)
{
    const reading *r = context;
    const field_list *list = frame_lists[r->table];
    (void)file;
    for (size_t i = 0; i < list->count && i < FRAME_FIELDS_MOST; i++)
        r->tables->units[r->table][i] = reader_unit(from, &list->fields[i]);
    return true;
}

/* The row as it is, with its line. */
static int keep_row(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    record_room room;
    const int table = ((const reading *)context)->table;
    (void)complaints;
    memcpy(&room, record, frame_lists[table]->record_size);
    memcpy((char *)&room + line_offsets[table], &at->line, sizeof at->line);
    rows_add(answers, &room);
    return ALL_HOLD;
}

static bool read_table(frame_tables *t, int table, int jobs)
{
    const reading at = {t, table};
    output memory = {.format = FORMAT_TEXT}; /* nothing is written: the rows are kept */
    record_room prototype;
    field_defaults(frame_lists[table], &prototype);
    t->tables[table] = rows_for(&memory, frame_lists[table]);
    const pipeline p = {
        .list = frame_lists[table],
        .prototype = &prototype,
        .results = frame_lists[table],
        .jobs = jobs,
        .out = &memory,
        .kept = &t->tables[table],
        .context = &at,
        .refused = &t->refused[table],
        .begin = take_units,
        .answer = keep_row,
    };
    return pipeline_run(&p, &t->paths[table], 1) == ALL_HOLD;
}

static bool is_missing(const char *path)
{
    struct stat there;
    return stat(path, &there) != 0 && errno == ENOENT;
}

static void say_missing(const frame_tables *t, const bool *missing, size_t count)
{
    text names = {0};
    for (size_t i = 0, said = 0; i < FRAME_TABLES; i++)
        if (missing[i]) text_item(&names, said++, count, "or", frame_files[i]);
    if (names.failed)
        say("out of memory");
    else
        say("%s: has no %s: a frame's folder has all three; 'railbow new --frame FOLDER' writes them", t->folder, names.at);
    text_free(&names);
}

bool frame_tables_read(frame_tables *t, int jobs)
{
    bool missing[FRAME_TABLES], fine = true;
    size_t count = 0;
    for (int i = 0; i < FRAME_TABLES; i++) count += missing[i] = is_missing(t->paths[i]);
    if (count > 0) say_missing(t, missing, count);
    for (int i = 0; i < FRAME_TABLES; i++) {
        t->whole[i] = !missing[i] && read_table(t, i, jobs);
        fine = fine && t->whole[i];
    }
    return fine;
}

void frame_tables_close(frame_tables *t)
{
    for (int i = 0; i < FRAME_TABLES; i++) {
        if (t->tables[i].list != NULL) rows_free(&t->tables[i]);
        free(t->paths[i]);
    }
}
