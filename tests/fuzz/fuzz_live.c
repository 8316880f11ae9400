/* What a live page hands to the program: a command line and files in memory. Any bytes go through the whole main; then what it
 * wrote is read again: JSON with cJSON, the page with expat, where no script, handler or address may have come from the input.
 *
 * Words stand first, one a line. Every form feed begins a file: its name on a line, then its bytes. */
#define _GNU_SOURCE /* memfd_create, nftw, optind */
int railbow_main(int argc, char **argv);
#define main railbow_main
#include "command/main.c"
#undef main

#include "report/live/live_data.h"

#include <cjson/cJSON.h>
#include <expat.h>
#include <ftw.h>
#include <getopt.h>
#include <sanitizer/common_interface_defs.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/stat.h>

enum { WORDS_MOST = 40, LINES_MOST = 10, WORD_MOST = 200, DIGITS_MOST = 3, SCRIPTS_OF_LIVE = 4 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
int LLVMFuzzerInitialize(int *count, char ***words);

/* An engine that is none: the parts of a live page that do not come from the input. */
static const unsigned char part[] = "x";
const live_part live_engine = {part, 1}, live_loader = {part, 1}, live_script = {part, 1}, live_style = {part, 1};

static char home[] = "/dev/shm/railbow_fuzz_XXXXXX"; /* a folder in memory */
static int folder_before; /* the folder of the fuzzer itself */

static int remove_one(const char *path, const struct stat *there, int kind, struct FTW *at)
{
    (void)there, (void)kind;
    if (at->level > 0 && remove(path) != 0) abort();
    return 0;
}

static void clear_home(void)
{
    if (nftw(home, remove_one, 8, FTW_DEPTH | FTW_PHYS) != 0) abort();
}

static void leave(void)
{
    clear_home();
    rmdir(home);
}

/* Sanitizers report on the first stderr, even while the program writes into memory. */
int LLVMFuzzerInitialize(int *count, char ***words)
{
    (void)count, (void)words;
    const int empty = open("/dev/null", O_RDONLY);
    folder_before = open(".", O_RDONLY | O_DIRECTORY);
    if (folder_before < 0 || mkdtemp(home) == NULL || empty < 0 || dup2(empty, STDIN_FILENO) < 0) abort();
    close(empty);
    __sanitizer_set_report_fd((void *)(intptr_t)dup(STDERR_FILENO));
    unsetenv("COLUMNS");
    atexit(leave);
    return 0;
}

/* ---- what may run ------------------------------------------------------------------------------------- */

/* No word leads out of the folder: a slash stands in fractions alone. */
static bool stays_inside(const char *word)
{
    if (strstr(word, "..") != NULL) return false;
    for (const char *at = word; (at = strchr(at, '/')) != NULL; at++)
        if (at == word || at[-1] < '0' || at[-1] > '9') return false;
    return true;
}

/* No number of more than three digits and no power of ten, so that no run asks for hours; and one thread, as in the page. */
static bool is_short_work(const char *word)
{
    size_t digits = 0;
    if (strlen(word) > WORD_MOST || strncmp(word, "-j", 2) == 0 || strncmp(word, "--j", 3) == 0) return false;
    for (; *word != '\0'; word++) {
        if (digits > 0 && (*word == 'e' || *word == 'E')) return false;
        digits = *word >= '0' && *word <= '9' ? digits + 1 : 0;
        if (digits > DIGITS_MOST) return false;
    }
    return true;
}

/* The commands that a live page gives, and those that work on the same tables. */
static bool is_asked(const char *command)
{
    static const char *const asked[] = {"check", "cases", "sweep", "limit", "compare", "explain", "columns", "new", "section", "index", "--version"};
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        if (strcmp(asked[i], command) == 0) return true;
    return false;
}

/* Returned: the number of words, 0 if they may not run. */
static int split(char *line, char **words)
{
    static char program[] = "railbow";
    int count = 0;
    words[count++] = program;
    for (char *word = strtok(line, "\n"); word != NULL && count < WORDS_MOST; word = strtok(NULL, "\n")) {
        if (!stays_inside(word) || !is_short_work(word)) return 0;
        words[count++] = word;
    }
    words[count] = NULL;
    return count > 1 && is_asked(words[1]) ? count : 0;
}

/* A table in the folder, or in the folder of a frame. */
static bool is_table(const char *name)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz_";
    if (strncmp(name, "frame/", 6) == 0) name += 6;
    const size_t length = strspn(name, letters);
    return length > 0 && length < 20 && strcmp(name + length, ".csv") == 0;
}

static bool put_file(const char *at, size_t n)
{
    char name[32] = "";
    const char *end = memchr(at, '\n', n);
    if (end == NULL || (size_t)(end - at) >= sizeof name) return true;
    memcpy(name, at, (size_t)(end - at));
    if (!is_table(name)) return true;
    const size_t length = n - (size_t)(end - at) - 1;
    size_t lines = 0;
    for (size_t i = 0; i < length; i++) lines += end[1 + i] == '\n' || end[1 + i] == '\r';
    if (lines > LINES_MOST) return false;
    mkdir("frame", 0700);
    FILE *file = fopen(name, "wb");
    if (file == NULL || fwrite(end + 1, 1, length, file) != length || fclose(file) != 0) abort();
    return true;
}

static bool put_files(const char *at, const char *end)
{
    while (at < end) {
        const char *next = memchr(at, '\f', (size_t)(end - at));
        if (next == NULL) next = end;
        if (!put_file(at, (size_t)(next - at))) return false;
        at = next + 1;
    }
    return true;
}

/* ---- what was written --------------------------------------------------------------------------------- */

static char *read_whole(int file, size_t *length)
{
    struct stat there;
    if (fstat(file, &there) != 0) abort();
    char *bytes = malloc((size_t)there.st_size + 1);
    if (bytes == NULL || pread(file, bytes, (size_t)there.st_size, 0) != there.st_size) abort();
    *length = (size_t)there.st_size;
    bytes[*length] = '\0';
    return bytes;
}

static void ck_json(const char *bytes, size_t length)
{
    const char *end = NULL;
    if (length == 0) return;
    cJSON *root = cJSON_ParseWithLengthOpts(bytes, length + 1, &end, true);
    if (root == NULL) abort();
    cJSON_Delete(root);
}

/* Names of attributes are the program's own; no handler is among them, and no address leads out of the page. */
static void XMLCALL see_element(void *user, const XML_Char *name, const XML_Char **attributes)
{
    int *scripts = user;
    static const char *const never[] = {"iframe", "object", "embed", "form", "base", "link"};
    *scripts += strcmp(name, "script") == 0;
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strcmp(name, never[i]) == 0) abort();
    for (; *attributes != NULL; attributes += 2) {
        if (strncmp(attributes[0], "on", 2) == 0) abort();
        if ((strcmp(attributes[0], "href") == 0 || strcmp(attributes[0], "src") == 0) && attributes[1][0] != '#' && strncmp(attributes[1], "data:", 5) != 0) abort();
        if (strncmp(attributes[1], "nan", 3) == 0 || strncmp(attributes[1], "inf", 3) == 0) abort();
    }
}

static void ck_page(const char *bytes, size_t length, bool is_live)
{
    int scripts = 0;
    XML_Parser parser = XML_ParserCreate("UTF-8");
    if (parser == NULL) abort();
    XML_SetUserData(parser, &scripts);
    XML_SetStartElementHandler(parser, see_element);
    if (XML_Parse(parser, bytes, (int)length, 1) != XML_STATUS_OK) abort();
    if (scripts != (is_live ? SCRIPTS_OF_LIVE : 0)) abort();
    XML_ParserFree(parser);
}

/* Messages are lines that begin with the program's name, and steer no terminal. */
static void ck_messages(const char *said, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if ((unsigned char)said[i] < ' ' && said[i] != '\n') abort();
    for (const char *at = said; at < said + length; at = strchr(at, '\n') + 1)
        if (strncmp(at, "railbow: ", 9) != 0 || strchr(at, '\n') == NULL) abort();
}

/* Where the answers of a run go. */
typedef struct answers {
    options given;
    bool is_read;                   /* the options are good */
    bool keeps_output, keeps_report; /* something stood there before */
} answers;

static bool is_standard(const char *named)
{
    return named == NULL || strcmp(named, "-") == 0;
}

static bool stands(const char *named)
{
    struct stat there;
    return named != NULL && lstat(named, &there) == 0;
}

/* Returned: NULL where no file was written. */
static char *written(const char *named, int standard, size_t *length)
{
    if (is_standard(named)) return read_whole(standard, length);
    const int file = open(named, O_RDONLY);
    if (file < 0) return NULL;
    char *bytes = read_whole(file, length);
    close(file);
    return bytes;
}

static void ck_answers(const answers *a, int standard)
{
    const options *o = &a->given;
    size_t length = 0;
    const bool page_on_stdout = o->report != NULL && is_standard(o->report);
    if (o->format == FORMAT_JSON && !a->keeps_output && !(page_on_stdout && is_standard(o->output))) {
        char *answer = written(o->output, standard, &length);
        if (answer != NULL) ck_json(answer, length);
        free(answer);
    }
    if (o->report == NULL || a->keeps_report) return;
    char *page = written(o->report, standard, &length);
    if (page != NULL && length > 0) ck_page(page, length, o->live);
    free(page);
}

/* ---- the run ------------------------------------------------------------------------------------------ */

/* Puts a file in place of a standard stream. Returned: the stream as it was. */
static int put_in_place_of(int stream, int file)
{
    const int before = dup(stream);
    if (before < 0 || dup2(file, stream) < 0) abort();
    return before;
}

static void put_back(int stream, int before)
{
    if (dup2(before, stream) < 0) abort();
    close(before);
}

/* getopt sorts the words: each reading has its own. */
static int run(int count, char **words)
{
    char *given[WORDS_MOST + 1];
    memcpy(given, words, sizeof given);
    optind = 0; /* glibc: begin anew */
    const int status = railbow_main(count, given);
    fflush(stdout);
    fflush(stderr);
    return status;
}

/* Reads the options before the run does, to know where its answers go. What is said about them is dropped. */
static void expect(answers *a, int count, char **words, int messages)
{
    char *given[WORDS_MOST + 1];
    memcpy(given, words, sizeof given);
    const command *c = command_find(words[1]);
    *a = (answers){.is_read = false};
    optind = 0;
    a->is_read = c != NULL && options_read(&a->given, c->name, c->takes, count - 1, given + 1) && !a->given.help;
    a->keeps_output = stands(a->given.output);
    a->keeps_report = stands(a->given.report);
    say_rest();
    fflush(stderr);
    if (ftruncate(messages, 0) != 0 || lseek(messages, 0, SEEK_SET) != 0) abort();
}

static void ask(int count, char **words)
{
    const int standard = memfd_create("stdout", MFD_CLOEXEC), messages = memfd_create("stderr", MFD_CLOEXEC);
    if (standard < 0 || messages < 0) abort();
    fflush(stdout);
    const int first = put_in_place_of(STDOUT_FILENO, standard), second = put_in_place_of(STDERR_FILENO, messages);
    answers a;
    expect(&a, count, words, messages);
    const int status = run(count, words);
    put_back(STDOUT_FILENO, first);
    put_back(STDERR_FILENO, second);
    size_t length = 0;
    char *said = read_whole(messages, &length);
    if (status < ALL_HOLD || status > NO_VERDICT || (status == NO_VERDICT && length == 0)) abort(); /* no error without a message */
    ck_messages(said, length);
    if (a.is_read) ck_answers(&a, standard);
    options_free(&a.given);
    free(said);
    close(standard);
    close(messages);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *bytes = malloc(size + 1), *words[WORDS_MOST + 1] = {NULL};
    if (bytes == NULL) abort();
    if (size > 0) memcpy(bytes, data, size);
    bytes[size] = '\0';
    char *files = memchr(bytes, '\f', size), *end = bytes + size;
    if (files != NULL) *files++ = '\0';
    const int count = split(bytes, words);
    if (count > 0) {
        if (chdir(home) != 0) abort();
        if (put_files(files != NULL ? files : end, end)) ask(count, words);
        if (fchdir(folder_before) != 0) abort();
        clear_home();
    }
    free(bytes);
    return 0;
}
