#include "sample.h"
#include "table/writer.h"

static void writes_text(const char *cell, const char *want)
{
    text out = {0};
    csv_text(&out, cell);
    text_char(&out, '|'); /* what follows must stand right behind */
    text all = {0};
    text_format(&all, "%s|", want);
    ck_assert_str_eq(out.at, all.at);
    text_free(&out);
    text_free(&all);
}

START_TEST(texts_are_quoted_where_needed)
{
    writes_text("", "");
    writes_text("plain 1.25\" text", "\"plain 1.25\"\" text\"");
    writes_text("one two", "one two");
    writes_text("a,b", "\"a,b\"");
    writes_text("a\nb", "\"a\nb\"");
    writes_text("a\rb", "\"a\rb\"");
    writes_text(" a", "\" a\"");
    writes_text("a ", "\"a \"");
    writes_text("a\t", "\"a\t\"");
    writes_text("\"", "\"\"\"\"");
    writes_text("caf\xC3\xA9", "caf\xC3\xA9");
}
END_TEST

START_TEST(formulas_get_an_apostrophe)
{
    writes_text("=1+1", "'=1+1");
    writes_text("+1", "'+1");
    writes_text("-x", "'-x");
    writes_text("@SUM(A1)", "'@SUM(A1)");
    writes_text(" =1+1", "\"' =1+1\"");
    writes_text("\xC2\xA0" "@SUM", "'\xC2\xA0" "@SUM");
    writes_text("\xE3\x80\x80-1", "'\xE3\x80\x80-1");
    writes_text("\n \t+1", "\"'\n \t+1\"");
    writes_text("\xEF\xBC\x9D" "1", "'\xEF\xBC\x9D" "1");
    writes_text("\xEF\xBC\x8B" "1", "'\xEF\xBC\x8B" "1");
    writes_text("\xEF\xBC\x8D" "1", "'\xEF\xBC\x8D" "1");
    writes_text(" \xEF\xBC\xA0" "1", "\"' \xEF\xBC\xA0" "1\"");
    writes_text("a =1", "a =1");
    writes_text("\xEF\xBC\x9A" "1", "\xEF\xBC\x9A" "1");
    writes_text("=A1,B1", "\"'=A1,B1\"");
    writes_text("=\"x\"", "\"'=\"\"x\"\"\"");
    writes_text("\tx", "\"'\tx\"");
    writes_text("\rx", "\"'\rx\"");
    writes_text("x=1", "x=1");
}
END_TEST

static void writes_row(sample s, unit_system units, const char *want)
{
    text out = {0};
    csv_row(&out, &sample_list, &s, units);
    ck_assert_str_eq(out.at, want);
    text_free(&out);
}

START_TEST(rows_are_written)
{
    text out = {0};
    csv_header(&out, &sample_list, UNITS_US);
    csv_header(&out, &sample_list, UNITS_SI);
    ck_assert_str_eq(out.at,
                     "name,note,length [in],slope [deg],share,load [lbf],end [in-lbf/rad],hinge [deg],shape\n"
                     "name,note,length [mm],slope [deg],share,load [N],end [N-m/rad],hinge [deg],shape\n");
    text_free(&out);
    sample s = {"A", "", 12.5, 90 * DEGREE, 1 / 3.0, -1500, INFINITY, -1, SHAPE_KINK};
    writes_row(s, UNITS_US, "A,,12.5,90,0.3333333333,-1500,fixed,loose,kink\n");
    writes_row(s, UNITS_SI, "A,,317.5,90,0.3333333333,-6672.332423,fixed,loose,kink\n");
    s.length = NAN;
    s.share = INFINITY;
    s.load = -INFINITY;
    s.end = 2;
    s.hinge = NAN;
    s.shape = 77;
    writes_row(s, UNITS_US, "A,,,90,inf,-inf,2,,\n");
}
END_TEST

/* What was written is read back: texts to the byte, numbers to the ten digits that were written. */
START_TEST(what_is_written_can_be_read)
{
    unsigned seed = 7;
    for (int i = 0; i < 3000; i++) {
        static const char *const texts[] = {"plain",       "a,b", "two\nlines\r\n", "\"quoted\"", " blank ",
                                            "caf\xC3\xA9", "#"};
        seed = seed * 1103515245U + 12345U;
        const double number = (seed >> 8) / 1000.0;
        const unit_system units = seed & 0x10000 ? UNITS_SI : UNITS_US;
        const sample s = {texts[seed >> 4 & 3],
                          texts[(seed >> 16) % 7],
                          number + 1,
                          -DEGREE * (number / 1e6),
                          0.75,
                          -number,
                          number,
                          -number / 1e3,
                          (int)(seed >> 20) % 3};
        text file = {0}, again = {0};
        csv_header(&file, &sample_list, units);
        csv_row(&file, &sample_list, &s, units);
        sample prototype;
        field_defaults(&sample_list, &prototype);
        reader *r = reader_new(&sample_list, "f.csv", &prototype);
        row_batch b = {0};
        ck_assert_int_eq(reader_feed(r, file.at, file.length, &b), READER_GOING);
        ck_assert_uint_eq(b.count, 1);
        ck_assert_str_eq(b.rows[0].complaints, "");
        const sample *got = b.rows[0].record;
        ck_assert_str_eq(got->name, s.name);
        ck_assert_str_eq(got->note, s.note);
        near_within(got->length, s.length, 1e-9, 0);
        csv_header(&again, &sample_list, units);
        csv_row(&again, &sample_list, got, units);
        ck_assert_str_eq(again.at, file.at);
        text_free(&file);
        text_free(&again);
        reader_free(r);
        row_batch_free(&b);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, texts_are_quoted_where_needed);
    tcase_add_test(cases, formulas_get_an_apostrophe);
    tcase_add_test(cases, rows_are_written);
    tcase_add_test(cases, what_is_written_can_be_read);
}

int main(void)
{
    return run_tests("table/writer", fill);
}
