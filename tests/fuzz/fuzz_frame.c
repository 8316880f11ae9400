/* A frame of which one table, or its details, holds any bytes: read, put together, held, solved and written. The first byte picks the
 * table; the others are those of a sound frame, without details. */
#define _XOPEN_SOURCE 700
#include "program/frame/frame_solve.h"
#include "program/frame/frame_write.h"
#include "report/text/frame/frame_text.h"

#include <gsl/gsl_errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { TUBES_MOST = 8, RUNS_MOST = 3, DETAILS_MOST = 40, TABLES = FRAME_TABLES + 1 };

static const char *file_of(int table)
{
    return table < FRAME_TABLES ? frame_files[table] : "details.csv";
}

static const char *const sound[TABLES] = {
    "joint,x [in],y [in],z [in],held\na,0,0,0,fixed\nb,0,0,20,fixed\nc,30,0,20,\n",
    "tube,from,to,od [in],wall [in],material,miss_a [in],miss_a_clock\nbeam,b,c,1.25,0.058,4130,0.1,90\nbrace,a,c,1,0.049,4130,,\n",
    "run,joint,tube,force_z [lbf],spread_y [lbf/in],vertical_g\ndown,c,,-500,,\ndown,,beam,,2,\ndown,,,,,1\n",
    "tube,detail,kind\n",
};

static struct {
    char folder[32];
    materials materials;
} place;

static void write_table(int table, const void *bytes, size_t size)
{
    char path[64];
    snprintf(path, sizeof path, "%s/%s", place.folder, file_of(table));
    const int file = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (file < 0 || write(file, bytes, size) != (ssize_t)size || close(file) != 0) abort();
}

static void remove_place(void)
{
    char path[64];
    for (int i = 0; i < TABLES; i++) {
        snprintf(path, sizeof path, "%s/%s", place.folder, file_of(i));
        unlink(path);
    }
    rmdir(place.folder);
    materials_close(&place.materials);
}

static void make_place(void)
{
    if (*place.folder != '\0') return;
    gsl_set_error_handler_off();
    strcpy(place.folder, "/tmp/railbow-fuzz-XXXXXX");
    if (mkdtemp(place.folder) == NULL || !materials_open(&place.materials, NULL)) abort();
    atexit(remove_place);
}

static void look_at(const frame_solved *s)
{
    for (size_t i = 0; i < s->answers.run_count * s->answers.judged; i++) {
        const frame_tube_answer *r = &s->answers.tubes[i];
        if (!s->answers.runs[i / s->answers.judged].solved) continue;
        if (isnan(r->result.margin) || r->result.margin < -1 || (r->result.verdict == RBOW_HOLDS) != (r->result.margin >= 0)) abort();
    }
    for (size_t i = 0; i < s->answers.run_count * s->answers.detail_count; i++) {
        const detail_answer *d = &s->details[i];
        if (s->answers.runs[i / s->answers.detail_count].solved && !(d->result.margin >= -1)) abort();
    }
}

static void write_out(const frame_solved *s)
{
    const char *const input = "fuzz";
    const run_facts facts = {.version = "0", .words = &input, .word_count = 1, .materials = "fuzz", .materials_sha256 = "0"};
    const screen screens = {.width = SCREEN_LEAST, .units = UNITS_SI, .colour = true};
    text words = {0};
    frame_text(&words, &s->answers, OF_TUBES, false, &screens);
    if (words.length > 0 && memchr(words.at, '\0', words.length) != NULL) abort();
    text_free(&words);
    for (int format = FORMAT_CSV; format <= FORMAT_JSON; format++) {
        output out = {.file = open("/dev/null", O_WRONLY), .format = (output_format)format};
        for (int of = OF_TUBES; of <= OF_DETAILS; of++)
            if (!frame_write(&out, &s->answers, of, &facts, s->refused)) abort();
        close(out.file);
    }
}

static void solve(const frame_build *b, const options *o)
{
    frame_solved s;
    wanted w;
    if (b->model.tube_count > TUBES_MOST || b->model.run_count > RUNS_MOST || b->details.count > DETAILS_MOST || !frame_is_held(b)) return;
    if (!wanted_open(&w, o) || !frame_solve(&s, b, &w, 1)) abort();
    look_at(&s);
    write_out(&s);
    frame_solved_close(&s);
    wanted_close(&w);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const options plain = {.factor = 1.5, .jobs = 1};
    frame_build b;
    if (size == 0) return 0;
    make_place();
    for (int i = 0; i < TABLES; i++) write_table(i, sound[i], strlen(sound[i]));
    write_table(data[0] % TABLES, data + 1, size - 1);
    if (frame_build_open(&b, place.folder, &plain, &place.materials)) solve(&b, &plain);
    frame_build_close(&b);
    return 0;
}
