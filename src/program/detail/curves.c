#define _XOPEN_SOURCE 700
#include "program/detail/curves.h"

#include "program/data_folder.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "table/messages.h"
#include "table/names.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The table in the data folder; NULL when memory ran out. */
static char *installed_table(void)
{
    text t = {0};
    text_format(&t, "%s/materials/fatigue.csv", data_folder);
    return t.at;
}

static int take_row(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    curve_row taken = *(const curve_row *)record;
    text why = {0};
    (void)context;
    const char *column = curve_fault(&taken, &why);
    taken.line = at->line;
    if (column == NULL) rows_add(answers, &taken);
    else message_add(complaints, at->file, at->line, column, "%s", text_string(&why, &complaints->failed));
    text_free(&why);
    return column == NULL ? ALL_HOLD : NO_VERDICT;
}

static const curve_row *find(const curves *c, const char *name, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (name_is(c->list[i].curve.name, name, strlen(name))) return &c->list[i];
    return NULL;
}

/* Which of two rows of one name is meant nobody knows. */
static bool names_differ(const curves *c)
{
    bool differ = true;
    for (size_t i = 0; i < c->count; i++) {
        const curve_row *before = find(c, c->list[i].curve.name, i);
        if (before == NULL) continue;
        say("%s:%zu: curve: '%s' stands in line %zu, too: a name has one row", c->file, c->list[i].line, c->list[i].curve.name, before->line);
        differ = false;
    }
    return differ;
}

/* Returned: whether the file was read to its end. Rows at fault are left out, after messages. */
static bool read_rows(curves *c)
{
    refused_rows refused = {.count = 0};
    size_t lost = 0;
    output memory = {.format = FORMAT_TEXT}; /* nothing is written: the rows are kept */
    sha256 digest;
    curve_row prototype;
    sha256_start(&digest);
    field_defaults(&curve_list, &prototype);
    c->kept = rows_for(&memory, &curve_list);
    const pipeline p = {
        .list = &curve_list,
        .prototype = &prototype,
        .results = &curve_list,
        .jobs = 1,
        .out = &memory,
        .kept = &c->kept,
        .refused = &refused,
        .lost = &lost,
        .digest = &digest,
        .answer = take_row,
    };
    const int status = pipeline_run(&p, &c->file, 1);
    sha256_end(&digest, c->sha256);
    c->list = (const void *)c->kept.kept;
    c->count = c->kept.count;
    c->faulty = status != ALL_HOLD;
    return lost == 0 && (status == ALL_HOLD || refused.count > 0);
}

bool curves_open(curves *c, const char *file)
{
    *c = (curves){.file = file != NULL ? strdup(file) : installed_table()};
    if (c->file == NULL) {
        say("out of memory");
        return false;
    }
    if (file == NULL && access(c->file, F_OK) != 0) {
        say("%s: the table of S-N curves is not where it was to be installed; name a table with --curves FILE", c->file);
        return false;
    }
    return read_rows(c) && c->count > 0 && names_differ(c);
}

void curves_close(curves *c)
{
    if (c->kept.list != NULL) rows_free(&c->kept);
    free(c->file);
}

static const char *nearest(const curves *c, const char *name)
{
    nearest_name n = nearest_to(name);
    for (size_t i = 0; i < c->count; i++) nearest_try(&n, c->list[i].curve.name);
    return n.best;
}

static void say_names(text *out, const curves *c)
{
    enum { MOST = 12 };
    for (size_t i = 0; i < c->count && i < MOST; i++) text_format(out, "%s%s", i == 0 ? "" : ", ", c->list[i].curve.name);
    if (c->count > MOST) text_put(out, ", ...");
}

const rbow_sn_curve *curves_find(const curves *c, const char *name, const source_line *at, const char *column, text *complaints)
{
    const curve_row *found = find(c, name, c->count);
    if (found != NULL) return &found->curve;
    const char *near = nearest(c, name);
    text quoted = {0}, has = {0};
    text_quote(&quoted, name, strlen(name));
    if (near != NULL) text_format(&has, "did you mean '%s'?", near);
    else text_put(&has, "it has "), say_names(&has, c);
    message_add(complaints, at->file, at->line, column, "%s is no curve of %s; %s", text_string(&quoted, &complaints->failed), c->file,
                text_string(&has, &complaints->failed));
    text_free(&quoted);
    text_free(&has);
    return NULL;
}
