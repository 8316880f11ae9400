#define _POSIX_C_SOURCE 200809L
#include "command/pipeline.h"

#include "command/say.h"
#include "study/parallel.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PIECE = 256 * 1024, CHUNK = 32 };

typedef struct chunk { /* what CHUNK rows came to */
    text written, complaints;
    int status;
} chunk;

typedef struct round { /* one batch on its way through */
    const pipeline *p;
    const char *file;
    const batch *rows;
    chunk *chunks;
    size_t chunk_room;
    char *results, *answered;
    size_t result_room;
} round;

static int worse(int a, int b)
{
    return a > b ? a : b;
}

static void answer_row(const round *r, chunk *c, size_t i)
{
    const row *given = &r->rows->rows[i];
    r->answered[i] = 0;
    if (given->record == NULL) {
        text_put(&c->complaints, given->complaints);
        c->status = NO_VERDICT;
        return;
    }
    const place at = {r->file, given->line};
    const size_t before = c->complaints.length;
    const int status = r->p->answer(r->p->context, &at, given->record, r->results + i * r->p->result_size,
                                    &c->written, &c->complaints);
    c->status = worse(c->status, status);
    r->answered[i] = c->complaints.length == before;
}

static void answer_chunk(void *context, size_t index)
{
    const round *r = context;
    chunk *c = &r->chunks[index];
    const size_t first = index * CHUNK, end = first + CHUNK;
    c->status = ALL_HOLD;
    for (size_t i = first; i < end && i < r->rows->count; i++) answer_row(r, c, i);
}

static bool make_room(round *r, size_t rows, size_t chunks)
{
    if (chunks > r->chunk_room) {
        chunk *more = realloc(r->chunks, chunks * sizeof *more);
        if (more == NULL) return false;
        memset(more + r->chunk_room, 0, (chunks - r->chunk_room) * sizeof *more);
        r->chunks = more;
        r->chunk_room = chunks;
    }
    if (rows > r->result_room) {
        free(r->results);
        free(r->answered);
        r->results = malloc(rows * r->p->result_size + 1);
        r->answered = malloc(rows);
        r->result_room = r->results != NULL && r->answered != NULL ? rows : 0;
    }
    return r->result_room >= rows;
}

/* In the order of the file, whatever thread came first. Returned: NO_VERDICT + 1 to stop. */
static int hand_on(round *r, size_t chunks)
{
    const pipeline *p = r->p;
    int status = ALL_HOLD;
    for (size_t k = 0; k < chunks; k++) {
        chunk *c = &r->chunks[k];
        if (c->complaints.length > 0) say_lines(c->complaints.at);
        text_clear(&c->complaints);
        status = worse(status, c->status);
        if (!output_text(p->out, &c->written)) return NO_VERDICT + 1;
        for (size_t i = k * CHUNK; p->keep != NULL && i < (k + 1) * CHUNK && i < r->rows->count; i++)
            if (r->answered[i] && !p->keep(p->kept, r->results + i * p->result_size)) {
                say("out of memory");
                return NO_VERDICT + 1;
            }
    }
    return status;
}

static int answer_batch(round *r, const batch *rows)
{
    const size_t chunks = (rows->count + CHUNK - 1) / CHUNK;
    r->rows = rows;
    if (!make_room(r, rows->count, chunks)) {
        say("out of memory");
        return NO_VERDICT + 1;
    }
    parallel_for(chunks, r->p->jobs, answer_chunk, r);
    return hand_on(r, chunks);
}

static ssize_t read_piece(int file, char *bytes)
{
    ssize_t got;
    do got = read(file, bytes, PIECE);
    while (got < 0 && errno == EINTR);
    return got;
}

static int run_pieces(round *r, int file, reader *from, char *bytes)
{
    batch rows = {0};
    int status = ALL_HOLD;
    for (ssize_t got = 1; got > 0 && status <= NO_VERDICT;) {
        got = read_piece(file, bytes);
        if (got < 0) {
            say("%s: cannot read: %s", r->file, strerror(errno));
            status = NO_VERDICT;
            break;
        }
        const reader_state state = reader_feed(from, bytes, (size_t)got, &rows);
        status = worse(status, answer_batch(r, &rows));
        if (state == READER_STOPPED) break;
    }
    if (*reader_trouble(from) != '\0') {
        say_lines(reader_trouble(from));
        status = worse(status, NO_VERDICT);
    }
    batch_free(&rows);
    return status;
}

static void round_free(round *r)
{
    for (size_t i = 0; i < r->chunk_room; i++) {
        text_free(&r->chunks[i].written);
        text_free(&r->chunks[i].complaints);
    }
    free(r->chunks);
    free(r->results);
    free(r->answered);
}

static int run_file(const pipeline *p, const char *name)
{
    const bool standard = strcmp(name, "-") == 0;
    const int file = standard ? STDIN_FILENO : open(name, O_RDONLY | O_CLOEXEC);
    if (file < 0) {
        say("%s: cannot read: %s", name, strerror(errno));
        return NO_VERDICT;
    }
    round r = {.p = p, .file = standard ? "stdin" : name};
    reader *from = reader_new(p->list, r.file, p->prototype);
    char *bytes = malloc(PIECE);
    int status = NO_VERDICT;
    if (from != NULL && bytes != NULL)
        status = run_pieces(&r, file, from, bytes);
    else
        say("out of memory");
    round_free(&r);
    reader_free(from);
    free(bytes);
    if (!standard) close(file);
    return status;
}

int pipeline_run(const pipeline *p, char **files, int count)
{
    int status = ALL_HOLD;
    for (int i = 0; i < count && status <= NO_VERDICT; i++) status = worse(status, run_file(p, files[i]));
    return status > NO_VERDICT ? NO_VERDICT : status;
}
