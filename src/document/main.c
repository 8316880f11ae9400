/* Usage: railbow_document PROGRAM
 * Writes the manual pages, the completions and the schema into the current folder. */
#define _POSIX_C_SOURCE 200809L
#include "document/document.h"

#include "command/output.h"
#include "command/say.h"

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

int main(int argc, char **argv)
{
    if (argc != 2) {
        say("usage: railbow_document PROGRAM");
        return 2;
    }
    unlink("frame.csv"); /* of the last build; an example writes it anew */
    const bool fine = write_file("railbow.1", manual_program, argv[1]) && write_file("railbow-cases.5", manual_cases, argv[1])
        && write_file("railbow.bash", completion_bash, argv[1]) && write_file("_railbow", completion_zsh, argv[1])
        && write_file("railbow.fish", completion_fish, argv[1]) && write_file("railbow.schema.json", schema_json, argv[1]);
    return fine ? 0 : 1;
}
