#include "document/document.h"

#include "cases/case_table.h"
#include "command/commands.h"

#include <string.h>

/* What may stand behind an option, or as an operand. */
typedef enum offer { OFFER_NOTHING, OFFER_FILES, OFFER_WORDS, OFFER_COLUMNS, OFFER_RANGE, OFFER_COMMANDS } offer;

static offer offer_for(const char *value)
{
    if (value == NULL) return OFFER_NOTHING;
    if (strchr(value, '|') != NULL && strchr(value, ' ') == NULL) return OFFER_WORDS;
    if (strcmp(value, "COLUMN") == 0) return OFFER_COLUMNS;
    if (strncmp(value, "COLUMN=", 7) == 0) return OFFER_RANGE;
    if (strstr(value, "COMMAND") != NULL) return OFFER_COMMANDS;
    return strstr(value, "FILE") != NULL || strcmp(value, "READINGS") == 0 ? OFFER_FILES : OFFER_NOTHING;
}

/* ---- lists of words ------------------------------------------------------------------------------------ */

static void put_words(text *out, const char *value) /* "a|b" */
{
    for (; *value != '\0'; value++) text_char(out, *value == '|' ? ' ' : *value);
}

static void put_commands(text *out)
{
    for (size_t i = 0; i < command_count; i++) text_format(out, "%s%s", i > 0 ? " " : "", commands[i].name);
}

static void put_columns(text *out, const char *behind)
{
    const char *blank = "";
    for (size_t i = 0; i < case_list.count; i++) {
        const field *f = &case_list.fields[i];
        if (f->kind != FIELD_NUMBER && f->kind != FIELD_EITHER) continue;
        text_format(out, "%s%s%s", blank, f->name, behind);
        blank = " ";
    }
}

static void put_offer(text *out, const char *value)
{
    switch (offer_for(value)) {
        case OFFER_WORDS: put_words(out, value); break;
        case OFFER_COLUMNS: put_columns(out, ""); break;
        case OFFER_RANGE: put_columns(out, "="); break;
        case OFFER_COMMANDS: put_commands(out); break;
        default: break;
    }
}

static bool has_words(const char *value)
{
    return offer_for(value) != OFFER_NOTHING && offer_for(value) != OFFER_FILES;
}

/* Safe between single quotes of a shell, without the characters that `more` names. */
static void put_quoted(text *out, const char *words, const char *more)
{
    for (; *words != '\0'; words++) {
        if (*words == '\'')
            text_put(out, "'\\''");
        else if (strchr(more, *words) != NULL)
            text_format(out, "\\%c", *words);
        else
            text_char(out, *words);
    }
}

/* ---- bash ------------------------------------------------------------------------------------------------ */

static void put_bash_values(text *out, const command *c)
{
    option_shown o;
    for (size_t i = 0; options_at(c->takes, i, &o); i++) {
        if (o.value == NULL || !has_words(o.value)) continue;
        text_format(out, "        %s:--%s", c->name, o.name);
        if (o.letter != 0) text_format(out, "|%s:-%c", c->name, o.letter);
        text_put(out, ") words='");
        put_offer(out, o.value);
        text_put(out, offer_for(o.value) == OFFER_RANGE ? "'; compopt -o nospace 2>/dev/null ;;\n" : "' ;;\n");
    }
}

static void put_bash_options(text *out, const command *c)
{
    option_shown o;
    text_format(out, "        %s:-*) words='", c->name);
    for (size_t i = 0; options_at(c->takes, i, &o); i++) text_format(out, "%s--%s", i > 0 ? " " : "", o.name);
    text_put(out, "' ;;\n");
    if (offer_for(c->operands) == OFFER_COMMANDS) {
        text_format(out, "        %s:*) words='", c->name);
        put_commands(out);
        text_put(out, "' ;;\n");
    }
}

bool completion_bash(text *out, const char *program)
{
    (void)program;
    text_put(out, "# bash completion for railbow; made of the program's own lists while it was built.\n"
                  "_railbow()\n{\n"
                  "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
                  "    local command=${COMP_WORDS[1]} words=\n"
                  "    COMPREPLY=()\n"
                  "    if [ \"$word\" = = ]; then word=\n"
                  "    elif [ \"$before\" = = ]; then before=${COMP_WORDS[COMP_CWORD-2]}; fi\n"
                  "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n        words='");
    put_commands(out);
    text_put(out, " --help --version'\n    else\n        case $command:$before in\n");
    for (size_t i = 0; i < command_count; i++) put_bash_values(out, &commands[i]);
    text_put(out, "        *) case $command:$word in\n");
    for (size_t i = 0; i < command_count; i++) put_bash_options(out, &commands[i]);
    text_put(out, "        esac ;;\n        esac\n    fi\n"
                  "    [ -z \"$words\" ] || COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\n"
                  "complete -o bashdefault -o default -F _railbow railbow\n");
    return true;
}

/* ---- zsh --------------------------------------------------------------------------------------------------- */

static void put_zsh_action(text *out, const char *value)
{
    switch (offer_for(value)) {
        case OFFER_FILES: text_put(out, ":file:_files"); break;
        case OFFER_NOTHING: text_put(out, ":value: "); break;
        case OFFER_RANGE: text_put(out, ":column:_railbow_ranges"); break;
        default:
            text_put(out, ":value:(");
            put_offer(out, value);
            text_char(out, ')');
    }
}

static void put_zsh_option(text *out, const option_shown *o)
{
    text_put(out, " \\\n            ");
    if (o->letter != 0) text_format(out, "'(-%c --%s)'{-%c,--%s", o->letter, o->name, o->letter, o->name);
    if (o->letter == 0) text_format(out, "'%s--%s", offer_for(o->value) == OFFER_RANGE ? "*" : "", o->name);
    if (o->value != NULL && o->letter == 0) text_char(out, '=');
    text_put(out, o->letter != 0 ? "}'[" : "[");
    put_quoted(out, o->meaning, "[]:\\");
    text_char(out, ']');
    if (o->value != NULL) put_zsh_action(out, o->value);
    text_char(out, '\'');
}

static void put_zsh_command(text *out, const command *c)
{
    option_shown o;
    text_format(out, "        %s) _arguments", c->name);
    for (size_t i = 0; options_at(c->takes, i, &o); i++) put_zsh_option(out, &o);
    if (offer_for(c->operands) == OFFER_FILES) text_put(out, " \\\n            '*:file:_files'");
    if (offer_for(c->operands) == OFFER_COMMANDS) {
        text_put(out, " \\\n            '1:command:(");
        put_commands(out);
        text_put(out, ")'");
    }
    text_put(out, " ;;\n");
}

bool completion_zsh(text *out, const char *program)
{
    (void)program;
    text_put(out, "#compdef railbow\n# Made of the program's own lists while it was built.\n"
                  "_railbow_ranges() { compadd -S = -- ");
    put_columns(out, "");
    text_put(out, " }\n_railbow() {\n    if (( CURRENT == 2 )); then\n        local -a commands=(");
    for (size_t i = 0; i < command_count; i++) {
        text_format(out, "\n            '%s:", commands[i].name);
        put_quoted(out, commands[i].summary, "\\:");
        text_char(out, '\'');
    }
    text_put(out, ")\n        _describe command commands\n        return\n    fi\n"
                  "    shift words\n    (( CURRENT-- ))\n    case $words[1] in\n");
    for (size_t i = 0; i < command_count; i++) put_zsh_command(out, &commands[i]);
    text_put(out, "    esac\n}\n_railbow \"$@\"\n");
    return true;
}

/* ---- fish ---------------------------------------------------------------------------------------------------- */

static void put_fish_option(text *out, const command *c, const option_shown *o)
{
    text_format(out, "complete -c railbow -n '__fish_seen_subcommand_from %s' -l %s", c->name, o->name);
    if (o->letter != 0) text_format(out, " -s %c", o->letter);
    if (o->value != NULL) text_put(out, offer_for(o->value) == OFFER_FILES ? " -rF" : " -xa '");
    if (o->value != NULL && offer_for(o->value) != OFFER_FILES) {
        put_offer(out, o->value);
        text_char(out, '\'');
    }
    text_put(out, " -d '");
    put_quoted(out, o->meaning, "\\");
    text_put(out, "'\n");
}

bool completion_fish(text *out, const char *program)
{
    (void)program;
    text_put(out, "# fish completion for railbow; made of the program's own lists while it was built.\n");
    for (size_t i = 0; i < command_count; i++) {
        const command *c = &commands[i];
        option_shown o;
        text_format(out, "complete -c railbow -n __fish_use_subcommand -fa %s -d '", c->name);
        put_quoted(out, c->summary, "\\");
        text_put(out, "'\n");
        if (offer_for(c->operands) == OFFER_COMMANDS) {
            text_format(out, "complete -c railbow -n '__fish_seen_subcommand_from %s' -fa '", c->name);
            put_commands(out);
            text_put(out, "'\n");
        }
        for (size_t k = 0; options_at(c->takes, k, &o); k++) put_fish_option(out, c, &o);
    }
    return true;
}
