#include "command/commands.h"

#include "cases/table_list.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"
#include "report/text/table_text.h"

static void say_units(text *out)
{
    text_put(out, "Units that a header may name in brackets, as in \"length [in]\" or \"length [mm]\"\n\n");
    for (dimension d = DIM_LENGTH; d < DIM_COUNT; d++) {
        text names = {0};
        unit_say_names(&names, d);
        text_format(out, "  %s\n", text_string(&names, &out->failed));
        text_free(&names);
    }
}

int command_columns(const options *o)
{
    output out;
    tables all;
    text t = {0};
    if (o->operand_count > 0) {
        say("columns: takes no operand, but has '%s'; see 'railbow help columns'", o->operands[0]);
        return NO_VERDICT;
    }
    if (!output_open(&out, o)) return NO_VERDICT;
    tables_fill(&all);
    for (size_t i = 0; i < all.count; i++) table_text(&t, &all.at[i]);
    say_units(&t);
    const bool written = output_text(&out, &t);
    text_free(&t);
    return output_close(&out, true) && written ? ALL_HOLD : NO_VERDICT;
}
