#define _XOPEN_SOURCE 700 /* mkstemp, realpath, fchmod */
#include "program/output.h"

#include "program/drafts.h"
#include "program/inputs.h"
#include "program/say.h"
#include "report/screen.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

static bool refuse(output *out, const char *doing)
{
    say("%s: cannot %s: %s", out->target != NULL ? out->target : "stdout", doing, strerror(errno));
    out->failed = true;
    return false;
}

static mode_t mode_for(const char *path)
{
    struct stat old;
    if (stat(path, &old) == 0) return old.st_mode & 0777;
    const mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* A draft beside the target, so that the rename cannot cross file systems. */
static bool open_draft(output *out)
{
    const size_t length = strlen(out->path);
    out->draft = malloc(length + 8);
    if (out->draft == NULL) {
        free(out->path);
        out->path = NULL;
        return refuse(out, "write");
    }
    memcpy(out->draft, out->path, length);
    memcpy(out->draft + length, ".XXXXXX", 8);
    drafts_hold_signals();
    out->file = mkstemp(out->draft);
    if (out->file >= 0) draft_expect(out->draft);
    drafts_release_signals();
    if (out->file < 0) {
        refuse(out, "write");
        free(out->draft);
        free(out->path);
        out->draft = out->path = NULL;
        return false;
    }
    fchmod(out->file, mode_for(out->path));
    return true;
}

/* Where the target's links lead, even if nothing stands there yet; NULL with errno. */
static char *path_behind(const char *target)
{
    char *plain = realpath(target, NULL);
    if (plain != NULL || errno != ENOENT) return plain;
    char next[4096];
    const ssize_t length = readlink(target, next, sizeof next - 1);
    if (length < 0) return strdup(target);
    next[length] = '\0';
    const char *slash = strrchr(target, '/');
    const size_t folder = next[0] == '/' || slash == NULL ? 0 : (size_t)(slash + 1 - target);
    char *joined = malloc(folder + (size_t)length + 1);
    if (joined == NULL) return NULL;
    memcpy(joined, target, folder);
    memcpy(joined + folder, next, (size_t)length + 1);
    char *path = path_behind(joined);
    free(joined);
    return path;
}

/* Refuses a target that the same run reads. */
static bool is_no_input(output *out, const options *o, const struct stat *there)
{
    const char *input = input_at(o, there);
    if (input == NULL) return true;
    say("%s: is %s, which this run reads: write the answer to another file",
        out->target != NULL ? out->target : "stdout", input);
    out->failed = true;
    return false;
}

static bool open_target(output *out, const options *o)
{
    struct stat there;
    const bool exists = stat(out->target, &there) == 0;
    if (exists && !is_no_input(out, o, &there)) return false;
    if (exists && S_ISDIR(there.st_mode)) {
        errno = EISDIR;
        return refuse(out, "write");
    }
    if (exists && !S_ISREG(there.st_mode)) { /* a device or a pipe cannot be renamed over */
        out->file = open(out->target, O_WRONLY);
        return out->file >= 0 || refuse(out, "write");
    }
    if (exists && access(out->target, W_OK) != 0) return refuse(out, "write");
    out->path = path_behind(out->target);
    if (out->path == NULL) return refuse(out, "write");
    out->replaces = exists;
    return open_draft(out);
}

static bool wants_colour(void)
{
    const char *no_colour = getenv("NO_COLOR"), *terminal = getenv("TERM");
    return isatty(STDOUT_FILENO) && (no_colour == NULL || *no_colour == '\0')
        && (terminal == NULL || strcmp(terminal, "dumb") != 0);
}

/* Columns of the terminal behind stdout: what it says itself, else the variable COLUMNS. */
static size_t terminal_width(void)
{
    enum { MOST = 1000 };
    struct winsize size;
    const char *said = getenv("COLUMNS");
    size_t width = SCREEN_WIDTH;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        width = size.ws_col;
    else if (said != NULL && strspn(said, "0123456789") == strlen(said) && strtoul(said, NULL, 10) > 0)
        width = strtoul(said, NULL, 10);
    return width < SCREEN_LEAST ? SCREEN_LEAST : width > MOST ? MOST : width;
}

static bool open_stdout(output *out, const options *o)
{
    struct stat there;
    return fstat(STDOUT_FILENO, &there) != 0 || is_no_input(out, o, &there);
}

bool output_open(output *out, const options *o)
{
    const bool to_stdout = o->output == NULL || strcmp(o->output, "-") == 0;
    *out = (output){.target = to_stdout ? NULL : o->output, .file = STDOUT_FILENO, .format = o->format, .units = o->units};
    const bool terminal = to_stdout && isatty(STDOUT_FILENO);
    if (out->format == FORMAT_AUTO) out->format = terminal ? FORMAT_TEXT : FORMAT_CSV;
    out->colour = terminal && wants_colour();
    out->width = terminal ? terminal_width() : SCREEN_WIDTH;
    const bool opened = to_stdout ? open_stdout(out, o) : open_target(out, o);
    out->guards = opened && out->format != FORMAT_TEXT && isatty(out->file);
    return opened;
}

/* Splits a path at its last slash. Returned: whether the folder is there. */
static bool folder_of(const char *path, struct stat *folder, const char **name)
{
    const char *slash = strrchr(path, '/');
    *name = slash != NULL ? slash + 1 : path;
    if (slash == NULL) return stat(".", folder) == 0;
    char *copy = strdup(path);
    if (copy == NULL) return false;
    copy[slash - path + 1] = '\0';
    const bool there = stat(copy, folder) == 0;
    free(copy);
    return there;
}

/* Two files that may not be there yet. */
static bool same_file(const char *a, const char *b)
{
    struct stat folders[2];
    const char *names[2];
    return folder_of(a, &folders[0], &names[0]) && folder_of(b, &folders[1], &names[1])
        && folders[0].st_dev == folders[1].st_dev && folders[0].st_ino == folders[1].st_ino
        && strcmp(names[0], names[1]) == 0;
}

static bool is_standard(const output *out)
{
    return out->target == NULL;
}

bool output_open_beside(output *out, const output *first, const options *o)
{
    const char *target = strcmp(o->report, "-") == 0 ? NULL : o->report;
    *out = (output){.target = target, .file = -1, .format = first->format, .units = first->units, .width = SCREEN_WIDTH};
    if (is_standard(out) && is_standard(first)) {
        say("--report: the page and the answer cannot both go to stdout: name a file for the answer with -o");
        out->failed = true;
        return false;
    }
    if (is_standard(out)) {
        out->file = STDOUT_FILENO;
        return open_stdout(out, o);
    }
    if (!open_target(out, o)) return false;
    if (out->path == NULL || first->path == NULL || !same_file(out->path, first->path)) return true;
    say("%s: the report and the answer cannot be the same file", target);
    out->failed = true;
    output_close(out, false);
    return false;
}

/* A file that nobody has yet; what appears under the name meanwhile is left alone too. */
bool output_open_fresh(output *out, const char *file)
{
    *out = (output){.target = file, .file = -1};
    out->fresh = strdup(file);
    if (out->fresh == NULL) return refuse(out, "write");
    drafts_hold_signals();
    out->file = open(file, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    const int reason = errno;
    if (out->file >= 0) draft_expect(out->fresh);
    drafts_release_signals();
    errno = reason;
    if (out->file >= 0) return true;
    if (errno == EEXIST)
        say("%s: already exists and was not changed; give another name", file);
    else
        refuse(out, "write");
    free(out->fresh);
    return false;
}

bool output_write(output *out, const char *bytes, size_t n)
{
    while (n > 0 && !out->failed) {
        const ssize_t written = write(out->file, bytes, n);
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return refuse(out, "write");
        bytes += written;
        n -= (size_t)written;
    }
    return !out->failed;
}

bool output_text(output *out, text *t)
{
    if (t->failed && !out->failed) {
        errno = ENOMEM;
        return refuse(out, "write");
    }
    if (out->guards) text_make_lines_printable(t);
    const size_t skip = out->drop_comma && t->length > 0 ? 1 : 0;
    const bool written = t->length == 0 || output_write(out, t->at + skip, t->length - skip);
    if (t->length > 0) out->drop_comma = false;
    text_clear(t);
    return written;
}

/* The draft takes the place of what was there, once all of it is on the disk. */
static bool put_in_place(output *out)
{
    if (out->incomplete && out->replaces) {
        say("%s: stays as it was, for the answer is not complete", out->target);
        return false;
    }
    return rename(out->draft, out->path) == 0 || refuse(out, "write");
}

bool output_close(output *out, bool keep)
{
    keep = keep && !out->failed;
    if (keep && (out->draft != NULL || out->fresh != NULL) && fsync(out->file) != 0) keep = refuse(out, "write");
    if (out->file >= 0 && close(out->file) != 0 && keep) keep = refuse(out, "write");
    if (out->draft != NULL) {
        keep = keep && put_in_place(out);
        if (!keep) unlink(out->draft);
        draft_forget(out->draft);
    }
    if (out->fresh != NULL) {
        if (!keep) unlink(out->fresh);
        draft_forget(out->fresh);
    }
    free(out->draft);
    free(out->path);
    free(out->fresh);
    return keep;
}
