#define _POSIX_C_SOURCE 200809L
#include "command/pipeline.h"

#include "command/say.h"
#include "study/parallel.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PIECE = 256 * 1024, CHUNK = 32, STOPPED = NO_VERDICT + 1 };

typedef struct chunk { /* what CHUNK rows came to */
    rows answers;
    text complaints;
    int status;
    size_t refused;
} chunk;

typedef struct round { /* one batch on its way through */
    const pipeline *p;
    const char *file;
    const batch *rows;
    chunk *chunks;
    size_t room;
} round;

static int worse(int a, int b)
{
    return a > b ? a : b;
}

static void answer_row(const round *r, chunk *c, const row *given)
{
    const place at = {r->file, given->line};
    int status = NO_VERDICT;
    if (given->record == NULL)
        text_put(&c->complaints, given->complaints);
    else
        status = r->p->answer(r->p->context, &at, given->record, &c->answers, &c->complaints);
    c->status = worse(c->status, status);
    c->refused += status == NO_VERDICT;
}

static void answer_chunk(void *context, size_t index)
{
    const round *r = context;
    chunk *c = &r->chunks[index];
    const size_t first = index * CHUNK, end = first + CHUNK;
    c->status = ALL_HOLD;
    c->refused = 0;
    for (size_t i = first; i < end && i < r->rows->count; i++) answer_row(r, c, &r->rows->rows[i]);
}

static bool make_room(round *r, size_t chunks)
{
    if (chunks <= r->room) return true;
    chunk *more = realloc(r->chunks, chunks * sizeof *more);
    if (more == NULL) return false;
    for (size_t i = r->room; i < chunks; i++) more[i] = (chunk){.answers = rows_for(r->p->out, r->p->results)};
    r->chunks = more;
    r->room = chunks;
    return true;
}

/* In the order of the file, whatever thread came first. Returned: STOPPED after a failure that ends the run. */
static int hand_on(round *r, size_t chunks)
{
    int status = ALL_HOLD;
    for (size_t k = 0; k < chunks; k++) {
        chunk *c = &r->chunks[k];
        if (c->complaints.failed) c->answers.failed = true;
        if (c->complaints.length > 0) say_lines(c->complaints.at);
        text_clear(&c->complaints);
        status = worse(status, c->status);
        if (r->p->refused != NULL) *r->p->refused += c->refused;
        if (!rows_hand_on(&c->answers, r->p->out, r->p->kept)) return STOPPED;
    }
    return status;
}

static int answer_batch(round *r, const batch *rows_read)
{
    const size_t chunks = (rows_read->count + CHUNK - 1) / CHUNK;
    r->rows = rows_read;
    if (!make_room(r, chunks)) {
        say("out of memory");
        return STOPPED;
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
    batch piece = {0};
    int status = ALL_HOLD;
    for (ssize_t got = 1; got > 0 && status <= NO_VERDICT;) {
        got = read_piece(file, bytes);
        if (got < 0) {
            say("%s: cannot read: %s", r->file, strerror(errno));
            status = NO_VERDICT;
            break;
        }
        const reader_state state = reader_feed(from, bytes, (size_t)got, &piece);
        status = worse(status, answer_batch(r, &piece));
        if (state == READER_STOPPED) break;
    }
    if (*reader_trouble(from) != '\0') {
        say_lines(reader_trouble(from));
        status = worse(status, reader_is_short_of_memory(from) ? STOPPED : NO_VERDICT);
    }
    batch_free(&piece);
    return status;
}

static void round_free(round *r)
{
    for (size_t i = 0; i < r->room; i++) {
        rows_free(&r->chunks[i].answers);
        text_free(&r->chunks[i].complaints);
    }
    free(r->chunks);
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
    int status = STOPPED;
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

/* Where it had to stop, rows may be missing: what came out so far must not stand as the answer. */
int pipeline_run(const pipeline *p, char **files, int count)
{
    int status = ALL_HOLD;
    for (int i = 0; i < count && status <= NO_VERDICT; i++) status = worse(status, run_file(p, files[i]));
    if (status <= NO_VERDICT) return status;
    p->out->failed = true;
    return NO_VERDICT;
}
