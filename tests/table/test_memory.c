/* Memory that runs out: at every single allocation, the reader and the writer must say so, and neither crash,
 * nor leak, nor hand out half a row. Where the C library's own allocator cannot be stood in for (another
 * library than glibc, a sanitizer), there is nothing to test. */
#include "sample.h"
#include "table/writer.h"

#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#define SANITIZED (__has_feature(address_sanitizer) || __has_feature(memory_sanitizer))
#else
#define SANITIZED 0
#endif

#if defined(__GLIBC__) && !SANITIZED

#define SEEN_BY_LIBRARIES __attribute__((visibility("default")))

static long until_failure = -1; /* allocations that still succeed; negative: all do */
static long in_use;             /* blocks */

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
void __libc_free(void *block);

static int fails(void)
{
    return until_failure >= 0 && until_failure-- == 0;
}

static void *counted(void *block)
{
    in_use += block != NULL;
    return block;
}

SEEN_BY_LIBRARIES void *malloc(size_t size)
{
    return fails() ? NULL : counted(__libc_malloc(size));
}

SEEN_BY_LIBRARIES void *calloc(size_t count, size_t size)
{
    return fails() ? NULL : counted(__libc_calloc(count, size));
}

SEEN_BY_LIBRARIES void *realloc(void *old, size_t size)
{
    if (fails()) return NULL;
    void *block = __libc_realloc(old, size);
    in_use += old == NULL && block != NULL;
    return block;
}

SEEN_BY_LIBRARIES void free(void *block)
{
    in_use -= block != NULL;
    __libc_free(block);
}

static bool whole = true; /* no half row was met */

static const char file[] = "name,length [in],note,slope,shape,load [lbf]\n"
                           "A,1,a note,5,sine,1\n"
                           "B,\"1,5\",,100,round,\n"
                           "\"C,1\n"
                           "D,1,another note,5,kink,\"2\"\n"
                           "E,1,,5,arc,7\n"
                           "F,1,,5,a\n"
                           "G,1,\"";

/* Everything once: reader, all rows, the end. Returned: whether memory ran out on the way; `rows` counts the
 * rows. */
static bool run(const char *bytes, size_t n, size_t *rows)
{
    sample prototype;
    field_defaults(&sample_list, &prototype);
    *rows = 0;
    reader *r = reader_new(&sample_list, "f.csv", &prototype);
    if (r == NULL) return true;
    row_batch b = {0};
    for (size_t i = 0; i <= n; i += 20) {
        const size_t left = n - i;
        const reader_state state = reader_feed(r, bytes + i, left < 20 ? left : 20, &b);
        for (size_t k = 0; k < b.count; k++) {
            const sample *s = b.rows[k].record;
            const char *complaints = b.rows[k].complaints;
            whole &= s != NULL ? strlen(s->name) == 1 : complaints[strlen(complaints) - 1] == '\n';
        }
        *rows += b.count;
        if (state == READER_STOPPED) break;
    }
    const bool short_of_memory = strcmp(reader_trouble(r), "f.csv: out of memory\n") == 0;
    reader_free(r);
    row_batch_free(&b);
    return short_of_memory;
}

static void fails_everywhere(const char *bytes, size_t n)
{
    size_t all, rows;
    ck_assert(!run(bytes, n, &all));
    bool short_of_memory = true;
    for (long i = 0; short_of_memory; i++) {
        const long before = in_use; /* the frame of the test allocates too, outside of run */
        until_failure = i;
        short_of_memory = run(bytes, n, &rows);
        const bool reached = until_failure < 0;
        until_failure = -1;
        ck_assert_int_eq(in_use, before);
        ck_assert(whole && rows <= all);
        /* libcsv tries again with less; then all is read none the less */
        if (reached && !short_of_memory) {
            ck_assert_uint_eq(rows, all);
            short_of_memory = true;
        }
    }
}

START_TEST(a_reader_without_memory)
{
    fails_everywhere(file, sizeof file - 1);
}
END_TEST

START_TEST(a_header_without_memory)
{
    static const char bad[] = "lenght [in],note [x],slope [turn],Note,load,\xFF,;\nA,1\n";
    static const char broken[] = "name,length\"\n";
    fails_everywhere(bad, sizeof bad - 1);
    fails_everywhere(broken, sizeof broken - 1);
    fails_everywhere("name", 4);
    fails_everywhere("", 0);
}
END_TEST

START_TEST(a_row_written_without_memory)
{
    const sample s = {"A",      "a, \"note\" that needs quotes and more than a little room", 1, 2, 3, 4, 5, 6,
                      SHAPE_ARC};
    bool failed = true;
    for (long i = 0; failed; i++) {
        const long before = in_use;
        text out = {0};
        until_failure = i;
        csv_header(&out, &sample_list, UNITS_US);
        csv_row(&out, &sample_list, &s, UNITS_US);
        until_failure = -1;
        failed = out.failed;
        text_free(&out);
        ck_assert_int_eq(in_use, before);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_reader_without_memory);
    tcase_add_test(cases, a_header_without_memory);
    tcase_add_test(cases, a_row_written_without_memory);
}

#else

static void fill(TCase *cases)
{
    (void)cases;
}

#endif

int main(void)
{
    return run_tests("table/memory", fill);
}
