/* Files that are right, or broken as files: what the reader makes of them, whole and in pieces. */
#include "sample.h"

/* what to do about a quote inside a cell */
#define MARK                                                                                     \
    "leave an inch mark out, the unit stands in the header; a text with a quote stands in quotes, " \
    "with those in it doubled"
#define H "name,length [in],load [lbf]\n" /* the shortest header that asks for nothing else */
#define REST " slope=0 share=0.5 load=1 end=pinned hinge=0 shape=arc\n"

START_TEST(rows_are_read)
{
    READS(H "A,2.5,1\nB,12,1\n", "2 name=A note= length=2.5" REST "3 name=B note= length=12" REST);
    READS(H "A,2.5,1", "2 name=A note= length=2.5" REST);
    READS(H "A,2.5,1\r\n", "2 name=A note= length=2.5" REST);
    READS("name,length [in],load [lbf]\r\nA,2.5,1\r\nB,12,1\r\n",
          "2 name=A note= length=2.5" REST "3 name=B note= length=12" REST);
    READS("name,length [in],load [lbf]\rA,2.5,1\rB,12,1",
          "2 name=A note= length=2.5" REST "3 name=B note= length=12" REST);
}
END_TEST

START_TEST(blank_lines_do_not_count_but_as_lines)
{
    READS("\n \t\n" H "\r\n\n  \nA,2.5,1\n\n\n\nB,12,1\n\n",
          "7 name=A note= length=2.5" REST "11 name=B note= length=12" REST);
}
END_TEST

START_TEST(a_byte_order_mark_is_passed_over)
{
    READS("\xEF\xBB\xBF" H "A,2.5,1\n", "2 name=A note= length=2.5" REST);
    READS("\xEF\xBB\xBF# comment\n" H "A,2.5,1\n", "3 name=A note= length=2.5" REST);
    READS("\xEF\xBB\xBF", "f.csv: has no header row\n");
    READS("\xEF\xBB", "f.csv:1: column 1: '\\xEF\\xBB' is not UTF-8: save the file as UTF-8\n"
                      "f.csv:1: name and length are missing\n");
    READS("\xEF" H "A,2.5,1\n", "f.csv:1: column 1: '\\xEFname' is not UTF-8: save the file as UTF-8\n"
                                "f.csv:1: name is missing\n");
}
END_TEST

START_TEST(comments_stand_before_the_header)
{
    READS("# with \"one quote, and\r#\n#\n\n" H "#A,2.5,1\n", "6 name=#A note= length=2.5" REST);
    READS("# only\n# comments \xFF", "f.csv: has no header row\n");
    READS("\"name\n# not a comment\",length [in],load [lbf]\nA,1,1\n",
          "f.csv:1: unknown column 'name\\x0A# not a comment'\nf.csv:1: name is missing\n");
}
END_TEST

START_TEST(columns_come_in_any_order_and_case)
{
    READS(" LOAD[kip] , Name,length  [ ft ],\"note\n\",SHAPE,END,hinge,Slope,share\n"
          "-1,A,2,\"\",Kink,FIXED,loose,45,1\n",
          "3 name=A note= length=24 slope=0.78539816339744828 share=1 load=-1000 end=fixed hinge=loose "
          "shape=kink\n");
}
END_TEST

START_TEST(units_are_converted)
{
    READS("name,length [mm],load [N],end [N-m/rad],slope [rad],hinge\nA,25.4,4.4482216152605,pinned,0.5,180\n",
          "2 name=A note= length=1 slope=0.5 share=0.5 load=1 end=pinned hinge=3.1415926535897931 shape=arc\n");
    READS("name,length [in],end [in-lbf/rad],hinge [rad]\nA,1,1200.5,2\n",
          "2 name=A note= length=1 slope=0 share=0.5 load=0 end=1200.5 hinge=2 shape=arc\n");
    READS("name,length [in],end,hinge [deg]\nA,1,fixed,\n",
          "2 name=A note= length=1 slope=0 share=0.5 load=0 end=fixed hinge=0 shape=arc\n");
}
END_TEST

START_TEST(empty_cells_mean_the_default)
{
    READS("name,length [in],note,slope,share,end,hinge,shape\nA,1,,,,,,\n",
          "2 name=A note= length=1 slope=0 share=0.5 load=0 end=pinned hinge=0 shape=arc\n");
}
END_TEST

START_TEST(quoted_cells)
{
    READS("name,note,length [in],load [lbf]\n\"A, \"\"B\"\"\", \" two\nlines\r\n\" "
          ",\"2.5\",\"1\"\nC,caf\xC3\xA9  x ,1,1\n",
          "2 name=A, \"B\" note= two\nlines\r\n length=2.5" REST "5 name=C note=caf\xC3\xA9  x length=1" REST);
    READS(H "\"\n\n\",1,1\n\"B\",1,1", "2 name=\n\n note= length=1" REST "5 name=B note= length=1" REST);
}
END_TEST

START_TEST(files_without_rows)
{
    READS("", "f.csv: has no header row\n");
    READS("\n\r\n \n", "f.csv: has no header row\n");
    READS(H, "f.csv: has a header but no row\n");
    READS("name,length [in],load [lbf]", "f.csv: has a header but no row\n");
    READS(H "\n\n", "f.csv: has a header but no row\n");
}
END_TEST

/* ---- broken quoting ------------------------------------------------------------------------------ */

#define A_ROW "A,2.5,1\n"

START_TEST(a_quote_inside_a_cell)
{
    READS(H "1\" tube,1,1\n" A_ROW, "2 bad\nf.csv:2: name: a quote in a cell that does not begin with one: " MARK "\n"
                                    "3 name=A note= length=2.5" REST);
    READS(H "x,y,1\" tube,\"\"\"\n" A_ROW, "2 bad\nf.csv:2: length: 'y' is not a number\n"
                                           "f.csv:2: load: a quote in a cell that does not begin with one: " MARK "\n"
                                           "3 name=A note= length=2.5" REST);
    READS(H "A,2.5,1,extra\"\n" A_ROW, "2 bad\nf.csv:2: a quote in a cell that does not begin with one: " MARK "\n"
                                       "3 name=A note= length=2.5" REST);
    READS(H "\"x\ny\",1\",1\n" A_ROW, "2 bad\nf.csv:3: length: a quote in a cell that does not begin with one: " MARK "; lines 2 to 3 are lost\n"
                                      "4 name=A note= length=2.5" REST);
}
END_TEST

START_TEST(text_behind_a_closing_quote)
{
    READS(H "\"1\" tube\",1,1\n" A_ROW,
          "2 bad\nf.csv:2: name: there is text behind the closing quote: a quote in a cell is doubled\n"
          "3 name=A note= length=2.5" REST);
    READS(H "\"a\" \"b\",1,1\n" A_ROW,
          "2 bad\nf.csv:2: name: there is text behind the closing quote: a quote in a cell is doubled\n"
          "3 name=A note= length=2.5" REST);
    READS(H "\"open,1,1\nB,2,1\nC,3,\"7\"\n" A_ROW, "2 bad\nf.csv:2: name: the quote opened here is closed on "
                                                    "a later line with text behind it; lines 2 to 4 are "
                                                    "lost\n"
                                                    "5 name=A note= length=2.5" REST);
}
END_TEST

START_TEST(a_quote_that_is_never_closed)
{
    READS(H A_ROW "\"B,1,1\n" A_ROW A_ROW,
          "2 name=A note= length=2.5" REST
          "3 bad\nf.csv:3: name: the quote opened here is never closed; lines 3 to 5 are lost\n");
    READS(H A_ROW "\"B\nB\",\"1,1\n" A_ROW "end",
          "2 name=A note= length=2.5" REST
          "3 bad\nf.csv:4: length: the quote opened here is never closed; lines 3 to 6 are lost\n");
    READS(H "B,1,\"", "2 bad\nf.csv:2: load: the quote opened here is never closed\n");
    READS(H "B,1,\"\n", "2 bad\nf.csv:2: load: the quote opened here is never closed\n");
    READS(H "B,1,\"1\"", "2 name=B note= length=1" REST);
    READS(H "\"", "2 bad\nf.csv:2: name: the quote opened here is never closed\n");
}
END_TEST

START_TEST(a_header_with_broken_quotes)
{
    READS("name,\"length [in],load [lbf]\n" A_ROW,
          "f.csv:1: column 2: the quote opened here is never closed; lines 1 to 2 are lost\n");
    READS("name,le\"ngth\n" A_ROW, "f.csv:1: column 2: a quote in a cell that does not begin with one: " MARK "\n");
}
END_TEST

/* ---- long cells ---------------------------------------------------------------------------------- */

/* head, n times 'x', tail */
static void reads_long(const char *head, size_t n, const char *tail, const char *want)
{
    text file = {0};
    text_put(&file, head);
    for (size_t i = 0; i < n; i++) text_char(&file, 'x');
    text_put(&file, tail);
    reads(file.at, file.length, want);
    text_free(&file);
}

START_TEST(the_longest_cell)
{
    text want = {0};
    text_put(&want, "2 name=A note=");
    for (int i = 0; i < READER_CELL_MOST; i++) text_char(&want, 'x');
    text_put(&want, " length=1 slope=0 share=0.5 load=0 end=pinned hinge=0 shape=arc\n");
    reads_long("name,length [in],note\nA,1,", READER_CELL_MOST, "\n", want.at);
    reads_long("name,length [in],note\nA,1,", READER_CELL_MOST, "", want.at);
    reads_long("name,note,length [in]\nA,\"", READER_CELL_MOST, "\",1", want.at);
    text_free(&want);
}
END_TEST

START_TEST(cells_that_are_too_long)
{
    static const char *const bad =
        "2 bad\nf.csv:2: name: is longer than 65536 bytes\n3 name=A note= length=2.5" REST;
    for (size_t more = 1; more < 5; more++) {
        reads_long(H, READER_CELL_MOST + more, ",1,1\n" A_ROW, bad);
        reads_long(H "\"", READER_CELL_MOST + more, "\",1,1\n" A_ROW, bad);
    }
    reads_long(H, 300000, "\n" A_ROW, bad);
    reads_long(H, 300000, "", "2 bad\nf.csv:2: name: is longer than 65536 bytes\n");
    reads_long(H "\"\n\n", 300000, ",1,1\n" A_ROW,
               "2 bad\nf.csv:2: name: is longer than 65536 bytes, or the quote opened here is never closed; "
               "lines 2 to 4 "
               "are lost\n5 name=A note= length=2.5" REST);
    reads_long("", 300000, "\n" A_ROW, "f.csv:1: column 1: is longer than 65536 bytes\n");
    reads_long("", READER_CELL_MOST + 1, "\n" A_ROW,
               "f.csv:1: column 1: is longer than 65536 bytes\nf.csv:1: name and length are missing\n");
}
END_TEST

START_TEST(memory_does_not_grow_with_a_line)
{
    static char bytes[1 << 16];
    sample prototype;
    field_defaults(&sample_list, &prototype);
    row_batch b = {0};
    for (int kind = 0; kind < 2; kind++) {
        reader *r = reader_new(&sample_list, "f.csv", &prototype);
        reader_feed(r, H, sizeof H - 1, &b);
        memset(bytes, kind == 0 ? 'x' : ',', sizeof bytes);
        reader_feed(r, "x", 1, &b); /* a row of nothing but separators would be none */
        for (int i = 0; i < 500; i++) reader_feed(r, bytes, sizeof bytes, &b);
        ck_assert_uint_lt(b.texts.room + b.records.room, 4096);
        ck_assert_int_eq(reader_feed(r, NULL, 0, &b), READER_GOING);
        reader_free(r);
    }
    row_batch_free(&b);
}
END_TEST

/* ---- the rest of the contract -------------------------------------------------------------------- */

START_TEST(the_end_may_be_said_twice)
{
    sample prototype;
    field_defaults(&sample_list, &prototype);
    reader *r = reader_new(&sample_list, "f.csv", &prototype);
    row_batch b = {0};
    static const char file[] = "name,length [mm],slope,end\nA,1,2,fixed\n";
    ck_assert_int_eq(reader_feed(r, file, sizeof file - 1, &b), READER_GOING);
    ck_assert_str_eq(reader_trouble(r), "");
    ck_assert_int_eq(reader_feed(r, NULL, 0, &b), READER_GOING);
    ck_assert_int_eq(reader_feed(r, NULL, 0, &b), READER_GOING); /* the end said twice */
    ck_assert_int_eq(reader_feed(r, "B,1,2,3\n", 8, &b), READER_GOING);
    ck_assert_uint_eq(b.count, 0);
    reader_free(r);
    row_batch_free(&b);
    reader_free(NULL);
}
END_TEST

START_TEST(the_prototype_gives_the_defaults)
{
    sample prototype;
    field_defaults(&sample_list, &prototype);
    prototype.note = "from the command line";
    prototype.share = 0.25;
    reader *r = reader_new(&sample_list, "f.csv", &prototype);
    row_batch b = {0};
    text got = {0};
    static const char file[] = "name,length [in],note\nA,1,\nB,1,own\n";
    reader_feed(r, file, sizeof file - 1, &b);
    show_batch(&got, &b);
    ck_assert_str_eq(
        got.at,
        "2 name=A note=from the command line length=1 slope=0 share=0.25 load=0 end=pinned hinge=0 shape=arc\n"
        "3 name=B note=own length=1 slope=0 share=0.25 load=0 end=pinned hinge=0 shape=arc\n");
    reader_free(r);
    row_batch_free(&b);
    text_free(&got);
}
END_TEST

/* Many rows in one batch, so that its blocks move; every third is bad. */
START_TEST(pointers_hold_in_a_large_batch)
{
    text file = {0}, want = {0};
    text_put(&file, "note,name,length [in]\n");
    for (int i = 2; i < 20000; i++) {
        text_format(&file, "note %d,%s%d,%d\n", i, i % 3 == 0 ? "" : "N", i, i % 3 == 0 ? 0 : i);
        if (i % 3 == 0)
            text_format(&want, "%d bad\nf.csv:%d: length: '0' is out of range: must be above 0\n", i, i);
        else
            text_format(
                &want,
                "%d name=N%d note=note %d length=%d slope=0 share=0.5 load=0 end=pinned hinge=0 shape=arc\n", i,
                i, i, i);
    }
    text got = read_bytes(file.at, file.length, WHOLE), pieces = read_bytes(file.at, file.length, 0);
    ck_assert_str_eq(got.at, want.at);
    ck_assert_str_eq(pieces.at, want.at);
    text *const texts[] = {&file, &want, &got, &pieces};
    for (int i = 0; i < 4; i++) text_free(texts[i]);
}
END_TEST

/* Files of pieces that matter to the grammar, strung together at random: no cut may change what comes of them.
 */
START_TEST(no_cut_changes_anything)
{
    static const char *const parts[] = {
        "\n", "\r\n", "\r",       ",",    "\"",      "\"\"",          " ",    "#",        "\xEF\xBB\xBF", "A",
        "1",  "2.5",  "\xC3\xA9", "\xE9", "A,1,1\n", "\"B\",2,3\r\n", "x\"y", "\"a\nb\"", ",1,1\n"};
    unsigned seed = 1;
    for (int i = 0; i < 3000; i++) {
        text file = {0};
        text_put(&file, i % 4 != 0 ? H : "");
        for (int k = 0; k < 30; k++) {
            seed = seed * 1103515245U + 12345U;
            text_put(&file, parts[(seed >> 16) % (sizeof parts / sizeof *parts)]);
        }
        text whole = read_bytes(file.at, file.length, WHOLE);
        reads(file.at, file.length, whole.at);
        text_free(&whole);
        text_free(&file);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, rows_are_read);
    tcase_add_test(cases, blank_lines_do_not_count_but_as_lines);
    tcase_add_test(cases, a_byte_order_mark_is_passed_over);
    tcase_add_test(cases, comments_stand_before_the_header);
    tcase_add_test(cases, columns_come_in_any_order_and_case);
    tcase_add_test(cases, units_are_converted);
    tcase_add_test(cases, empty_cells_mean_the_default);
    tcase_add_test(cases, quoted_cells);
    tcase_add_test(cases, files_without_rows);
    tcase_add_test(cases, a_quote_inside_a_cell);
    tcase_add_test(cases, text_behind_a_closing_quote);
    tcase_add_test(cases, a_quote_that_is_never_closed);
    tcase_add_test(cases, a_header_with_broken_quotes);
    tcase_add_test(cases, the_longest_cell);
    tcase_add_test(cases, cells_that_are_too_long);
    tcase_add_test(cases, memory_does_not_grow_with_a_line);
    tcase_add_test(cases, the_end_may_be_said_twice);
    tcase_add_test(cases, the_prototype_gives_the_defaults);
    tcase_add_test(cases, pointers_hold_in_a_large_batch);
    tcase_add_test(cases, no_cut_changes_anything);
}

int main(void)
{
    return run_tests("table/reader", fill);
}
