#include "command/commands.h"

#include "cases/list/table_list.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/text/cells.h"
#include "report/text/table_text.h"

static void say_units(text *out, const screen *s)
{
    put_sentence(out, "Units that a header may name in brackets, as in \"length [in]\" or \"length [mm]\"", 0, s);
    text_char(out, '\n');
    for (dimension d = DIM_LENGTH; d < DIM_HEADER_COUNT; d++) {
        text names = {0};
        text_put(&names, "  ");
        unit_say_names(&names, d);
        put_lines(out, &names, 4, s);
    }
}

int command_columns(const options *o)
{
    output out;
    tables all;
    text t = {0}, words = {0};
    if (o->operand_count > 0) {
        say("columns: takes no operand, but has '%s'; see 'railbow help columns'", o->operands[0]);
        return NO_VERDICT;
    }
    if (!output_open(&out, o)) return NO_VERDICT;
    const screen s = screen_of(&out, false, NULL, &words);
    tables_fill(&all);
    for (size_t i = 0; i < all.count; i++) {
        table_text(&t, &all.at[i], &s);
        text_char(&t, '\n');
    }
    say_units(&t, &s);
    const bool written = output_text(&out, &t);
    text_free(&t);
    text_free(&words);
    return output_close(&out, true) && written ? ALL_HOLD : NO_VERDICT;
}
