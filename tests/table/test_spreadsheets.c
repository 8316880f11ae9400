/* Files as spreadsheets save them: encodings, ends of lines, separators, decimal commas; and lengths of the shop. */
#include "sample.h"

#include "table/shop_length.h"
#include "table/written_number.h"

#define MORE " slope=0 share=0.5 load=1 end=pinned hinge=0 shape=arc\n"
#define AB "2 name=A note= length=2.5" MORE "3 name=B note= length=12" MORE
#define HA "name,length [in],load [lbf]"

/* ASCII and U+00E9 and U+1D11E (a surrogate pair) as UTF-16 with its mark; ~ stands for U+00E9, ^ for U+1D11E */
static text utf16(const char *ascii, bool little)
{
    text out = {0};
    const unsigned mark = 0xFEFF;
    unsigned units[400];
    size_t count = 0;
    units[count++] = mark;
    for (; *ascii != '\0'; ascii++) {
        if (*ascii == '^') units[count++] = 0xD834;
        units[count++] = *ascii == '~' ? 0xE9 : *ascii == '^' ? 0xDD1E : (unsigned char)*ascii;
    }
    for (size_t i = 0; i < count; i++) {
        text_char(&out, (char)(little ? units[i] & 0xFF : units[i] >> 8));
        text_char(&out, (char)(little ? units[i] >> 8 : units[i] & 0xFF));
    }
    return out;
}

START_TEST(utf16_with_its_mark)
{
    static const char want[] = "2 name=caf\xC3\xA9 \xF0\x9D\x84\x9E note= length=2.5" MORE;
    for (int little = 0; little < 2; little++) {
        text file = utf16(HA "\r\ncaf~ ^,2.5,1\r\n", little);
        reads(file.at, file.length, want);
        text_free(&file);
        file = utf16("sep=;\r\nname;length [in];load [lbf]\r\ncaf~ ^;2,5;1\r\n", little);
        text shifted = {0};
        text_format(&shifted, "3%s", want + 1);
        reads(file.at, file.length, shifted.at);
        text_free(&shifted);
        text_free(&file);
    }
}
END_TEST

START_TEST(broken_utf16)
{
    static const char lone[] = "\xFF\xFE" "n\0a\0m\0e\0,\0l\0e\0n\0g\0t\0h\0 \0[\0i\0n\0]\0\n\0\x34\xD8,\0" "1\0\n\0";
    static const char odd[] = "\xFF\xFE" "n\0a\0m\0e\0,\0l\0e\0n\0g\0t\0h\0 \0[\0i\0n\0]\0\n\0A\0,\0" "1\0" "0";
    READS(lone, "2 bad\nf.csv:2: name: '\\xED\\xA0\\xB4' is not UTF-8\n");
    READS(odd, "2 bad\nf.csv:2: length: '1\\xFF' is not UTF-8\n");
    READS("\xFF\xFE", "f.csv: has no header row\n");
    READS("\xFF\xFE" "n", "f.csv:1: column 1: '\\xFF' is not UTF-8: save the file as UTF-8\nf.csv:1: name and length are missing\n");
}
END_TEST

START_TEST(files_that_are_no_text)
{
#define OWN "f.csv: is a spreadsheet's own file (.xlsx, .ods, .xls), not a table in text: save it as CSV\n"
    READS("PK\x03\x04\x14\0\6\0\x08", OWN);
    READS("\xD0\xCF\x11\xE0\xA1\xB1", OWN);
    READS("%PDF-1.7\n", "f.csv: is a PDF or packed file, not a table in text: save the table as CSV\n");
    READS("\x1F\x8B\x08\0", "f.csv: is a PDF or packed file, not a table in text: save the table as CSV\n");
    READS("n\0a\0m\0e\0", "f.csv: is not text, or UTF-16 without its byte-order mark: save the table as CSV in UTF-8\n");
    READS("PK", "f.csv:1: unknown column 'PK'\nf.csv:1: name and length are missing\n");
}
END_TEST

START_TEST(every_end_of_a_line)
{
    READS(HA "\nA,2.5,1\nB,12,1\n", AB);
    READS(HA "\r\nA,2.5,1\r\nB,12,1\r\n", AB);
    READS(HA "\rA,2.5,1\rB,12,1\r", AB);
    READS("# a\r# b\r" HA "\r\rA,x,1\r", "5 bad\nf.csv:5: length: 'x' is not a number\n");
    READS(HA "\r\"A\rA\",2.5,1\rB,x,1\r", "2 name=A\rA note= length=2.5" MORE "4 bad\nf.csv:4: length: 'x' is not a number\n");
    READS(HA "\r\n\"A\r\nA\",2.5,1\r\nB,x,1\r\n",
          "2 name=A\r\nA note= length=2.5" MORE "4 bad\nf.csv:4: length: 'x' is not a number\n");
    READS(HA "\r1\" x,1,1\r\nA,2.5,1\n\rB,12,1",
          "2 bad\nf.csv:2: name: a quote in a cell that does not begin with one: leave an inch mark out, the unit stands in "
          "the header; a text with a quote stands in quotes, with those in it doubled\n"
          "3 name=A note= length=2.5" MORE "5 name=B note= length=12" MORE);
}
END_TEST

START_TEST(every_separator)
{
    READS("name;length [in];load [lbf]\nA;2.5;1\nB;12;1\n", AB);
    READS("name\tlength [in]\tload [lbf]\nA\t2,5\t1\nB\t12\t1\n", AB);
    READS("\xEF\xBB\xBFsep=;\nname;length [in];load [lbf]\nA;2.5;1\n", "3 name=A note= length=2.5" MORE);
    READS("sep=,\r\n" HA "\r\nA,2.5,1\r\n", "3 name=A note= length=2.5" MORE);
    READS("\"sep=;\"\nname;length [in];load [lbf]\n", "f.csv: has a header but no row\n");
    READS("sep=;\nname,length [in]\nA,1\n", "f.csv:2: unknown column 'name,length'\nf.csv:2: name and length are missing\n");
    READS("SEP=;\nname;length [in];load [lbf]\nA;2.5;1\n", "3 name=A note= length=2.5" MORE);
    READS("\"sep=\t\"\t\t\nname\tlength [in]\tload [lbf]\nA\t2.5\t1\n", "3 name=A note= length=2.5" MORE);
    READS("sep=;;;\r\nname;length [in];load [lbf]\nA;2.5;1\n", "3 name=A note= length=2.5" MORE);
    READS("sep=\n" HA "\nA,2.5,1\n", "f.csv:1: unknown column 'sep='\nf.csv:1: name and length are missing\n"); /* names none */
    READS("sep=;x\n" HA "\nA,2.5,1\n", "f.csv:1: unknown column 'sep='\nf.csv:1: unknown column 'x'\nf.csv:1: name and length are missing\n"); /* a header */
    READS("sep=|\n", "f.csv:1: 'sep=|' names a separator that is not read: use a comma, a semicolon or a tab\n");
    READS("# a, b, c\n\n\"name\";\"note;,,,\n", "f.csv:3: column 2: the quote opened here is never closed\n");
    READS("# a;b\n\"# one, two\";;\nname;length [in];load [lbf]\n;;\nA;2.5;1\n", "5 name=A note= length=2.5" MORE);
    READS("name\tlength [in]\tnote\tload [lbf]\nA\t2.5\t\t1\n", "2 name=A note= length=2.5" MORE);
    READS("name;length [in];load [lbf]\n\"A;B\";\"2,5\";1\n1\" x;1;1\nB;12;1\n",
          "2 name=A;B note= length=2.5" MORE
          "3 bad\nf.csv:3: name: a quote in a cell that does not begin with one: leave an inch mark out, the unit stands in "
          "the header; a text with a quote stands in quotes, with those in it doubled\n"
          "4 name=B note= length=12" MORE);
}
END_TEST

START_TEST(rows_of_nothing_but_separators)
{
    READS(HA "\n,,\nA,2.5,1\n , ,\n\"\",\"\",\"\"\n,\n,,,,\nB,12,1\n,,", "3 name=A note= length=2.5" MORE "8 name=B note= length=12" MORE);
    READS(HA "\n,,\n", "f.csv: has a header but no row\n");
}
END_TEST

START_TEST(decimal_commas)
{
    READS("name;length [in];load [lbf]\nA;2,5;1,0\nB;0,012e3;1\n", AB);
    READS("name;length [in]\nA;1,250\nB;1.250\nC;12,5;\nD;1,2,3\nE;1.250,5\n",
          "2 bad\nf.csv:2: length: '1,250' can be read in two ways: write 1250 or 1.250\n"
          "3 name=B note= length=1.25 slope=0 share=0.5 load=0 end=pinned hinge=0 shape=arc\n"
          "4 bad\nf.csv:4: has 3 cells where the header has 2\n"
          "5 bad\nf.csv:5: length: '1,2,3' is not a number: write one decimal point and nothing else between the digits\n"
          "6 bad\nf.csv:6: length: '1.250,5' is not a number: write one decimal point and nothing else between the digits\n");
    READS("name;length [in];end [in-lbf/rad]\nA;1;1,5\nB;1;1,500\n",
          "2 name=A note= length=1 slope=0 share=0.5 load=0 end=1.5 hinge=0 shape=arc\n"
          "3 bad\nf.csv:3: end: '1,500' can be read in two ways: write 1500 or 1.500\n");
}
END_TEST

START_TEST(a_comma_that_may_be_either)
{
    static const char *const either[] = {"1,250", "12,500", "125,000", "-1,250", "+9,999", ("\xE2\x88\x92" "1,250")};
    static const char *const clear[] = {"0,250", "1250,500", "1,25", "1,2500", "1,250.5", "1,250,000", ",250", "1,25x", "1250", "", "-"};
    for (size_t i = 0; i < sizeof either / sizeof *either; i++) ck_assert(comma_is_ambiguous(either[i], strlen(either[i])));
    for (size_t i = 0; i < sizeof clear / sizeof *clear; i++) ck_assert(!comma_is_ambiguous(clear[i], strlen(clear[i])));
}
END_TEST

/* By hand: feet are 12 inches, fractions as they are written. */
START_TEST(lengths_of_the_shop)
{
    static const struct {
        const char *written;
        double in, ft; /* inches, from a column in inches and in feet */
    } lengths[] = {
        {"1/16", 0.0625, 0.75}, {"1 1/4", 1.25, 15}, {"1-1/4", 1.25, 15}, {"\xC2\xBD", 0.5, 6}, {"1\xC2\xBD", 1.5, 18},
        {"1 \xE2\x85\x9E", 1.875, 22.5}, {"1\xE2\x81\x84" "8", 0.125, 1.5}, {"127/128", 0.9921875, 11.90625},
        {"3' 6 1/2\"", 42.5, 42.5}, {"3'-6 1/2\"", 42.5, 42.5}, {"3'6\"", 42, 42}, {"3'", 36, 36}, {"3' 6", 42, 42},
        {"0' 1/2\"", 0.5, 0.5}, {"1.25\"", 1.25, 1.25}, {"1.25''", 1.25, 1.25}, {"2.5'", 30, 30}, {"24\xE2\x80\xB3", 24, 24},
        {"3\xE2\x80\xB2 6\xE2\x80\xB3", 42, 42}, {"3\xE2\x80\x99 6\xE2\x80\x9D", 42, 42}, {"-1/16", -0.0625, -0.75},
        {"\xE2\x88\x92" "1 1/4", -1.25, -15}, {"\xE2\x88\x92" "2.5", -2.5, -30}, {"+1-1/4", 1.25, 15}};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        double value = 0;
        const char *written = lengths[i].written;
        ck_assert_msg(written_number_read(written, strlen(written), unit_find(DIM_LENGTH, "in", 2), false, &value), "%s", written);
        ck_assert_msg(fabs(value - lengths[i].in) <= 0, "%s: %.17g", written, value);
        ck_assert_msg(written_number_read(written, strlen(written), unit_find(DIM_LENGTH, "ft", 2), false, &value), "%s", written);
        ck_assert_msg(fabs(value - lengths[i].ft) <= 0, "%s: %.17g", written, value);
    }
}
END_TEST

static bool is_just(double got, double want)
{
    return fabs(got - want) <= 0;
}

START_TEST(what_is_no_length_of_the_shop)
{
    static const char *const words[] = {"11/4", "4/4", "1/3", "1/0", "1/", "/4", "1 1 1/4", "1.5 1/4", "1--1/4", "1 -1/4", "1/4 1",
                                        "12/25", "1/16/2", "3' 12\"", "3' 6 1/2\"x", "'", "\"", "3'-", "3' ", "1\" 1/4", "1'2'",
                                        "1/256", "1/4/8", "", "-", "1e3\"", "1 1/", "1-1", "1 2", "3'' 6''", "1,25\""};
    const unit *in = unit_find(DIM_LENGTH, "in", 2), *mm = unit_find(DIM_LENGTH, "mm", 2);
    double value = 7;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        ck_assert_msg(!written_number_read(words[i], strlen(words[i]), in, false, &value), "%s", words[i]);
    ck_assert(!written_number_read("1/16", 4, mm, false, &value));
    ck_assert(!written_number_read("1.25\"", 5, mm, false, &value));
    ck_assert(!written_number_read("1/16", 4, unit_find(DIM_FORCE, "lbf", 3), false, &value));
    ck_assert(!written_number_read("1/16", 4, NULL, false, &value));
    ck_assert(is_just(value, 7));
    ck_assert(written_number_read("1,25\"", 5, in, true, &value));
    ck_assert(is_just(value, 1.25));
}
END_TEST

START_TEST(lengths_of_the_shop_in_a_file)
{
    READS("name,length [in],load [lbf]\nA,2 1/2,\xE2\x88\x92" "1\nB,\"1'\"\n",
          "2 name=A note= length=2.5 slope=0 share=0.5 load=-1 end=pinned hinge=0 shape=arc\n"
          "3 bad\nf.csv:3: has 2 cells where the header has 3\n");
    READS("name,length [ft],load [lbf]\nA,\"2 1/2\"\"\",1\nB,1,1\n", AB);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, utf16_with_its_mark);
    tcase_add_test(cases, broken_utf16);
    tcase_add_test(cases, files_that_are_no_text);
    tcase_add_test(cases, every_end_of_a_line);
    tcase_add_test(cases, every_separator);
    tcase_add_test(cases, rows_of_nothing_but_separators);
    tcase_add_test(cases, decimal_commas);
    tcase_add_test(cases, a_comma_that_may_be_either);
    tcase_add_test(cases, lengths_of_the_shop);
    tcase_add_test(cases, what_is_no_length_of_the_shop);
    tcase_add_test(cases, lengths_of_the_shop_in_a_file);
}

int main(void)
{
    return run_tests("table/spreadsheets", fill);
}
