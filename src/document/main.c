/* Usage: railbow_document PROGRAM
 * Writes the manual pages, the completions and the schema into the current folder. */
#define _POSIX_C_SOURCE 200809L
#include "document/document.h"

#include "program/output.h"
#include "program/say.h"

#include <unistd.h>

static bool write_file(const char *name, bool (*make)(text *out, const char *program), const char *program)
{
    output out;
    text t = {0};
    const options to = {.output = name};
    if (!output_open(&out, &to)) return false;
    bool fine = make(&t, program);
    fine = output_text(&out, &t) && fine;
    text_free(&t);
    return output_close(&out, fine) && fine;
}

/* What the examples of the last build wrote; they write it again. */
static void forget_examples(void)
{
    static const char *const files[] = {"frame.csv", "nose/joints.csv", "nose/tubes.csv", "nose/loads.csv"};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) unlink(files[i]);
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        say("usage: railbow_document PROGRAM");
        return 2;
    }
    forget_examples();
    static const struct {
        const char *name;
        bool (*make)(text *out, const char *program);
    } files[] = {{"railbow.1", manual_program}, {"railbow-cases.5", manual_cases}, {"railbow.bash", completion_bash},
                 {"_railbow", completion_zsh}, {"railbow.fish", completion_fish}, {"railbow.schema.json", schema_json}};
    bool fine = true;
    for (size_t i = 0; fine && i < sizeof files / sizeof *files; i++) fine = write_file(files[i].name, files[i].make, argv[1]);
    return fine ? 0 : 1;
}
