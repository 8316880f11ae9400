/* Every message on a header or a cell, to the byte. */
#include "sample.h"

#define ROW "A,1\n"
#define MORE " slope=0 share=0.5 load=0 end=pinned hinge=0 shape=arc\n"

START_TEST(unknown_columns)
{
    READS("name,lenght [in],length [in]\n" ROW, "f.csv:1: unknown column 'lenght'; did you mean 'length'?\n");
    READS("name,length [in],colour\n" ROW, "f.csv:1: unknown column 'colour'\n");
    READS("name,length [in], [in]\n" ROW, "f.csv:1: column 3 has no name\n");
    READS("name,length [in],\"b\x07\x1b[31m\"\n" ROW, "f.csv:1: unknown column 'b\\x07\\x1B'\n");
    READS("name,length [in],caf\xE9\n" ROW,
          "f.csv:1: column 3: 'caf\\xE9' is not UTF-8: save the file as UTF-8\n");
    READS("name,length [in],a\0b\n" ROW, "f.csv:1: column 3: 'a\\x00b' is not UTF-8: save the file as UTF-8\n");
    READS("name,length [in],a name that is much too long to be shown in full\n" ROW,
          "f.csv:1: unknown column 'a name that is much too long to be shown'...\n");
    READS("name,length [in],Q,R,S\n" ROW, "f.csv:1: unknown column 'Q'\nf.csv:1: unknown column 'R'\nf.csv:1: unknown column 'S'\n");
    READS("name,length [in],Q,R,S,T\n" ROW,
          "f.csv:1: unknown column 'Q'\nf.csv:1: unknown column 'R'\nf.csv:1: unknown column 'S'\nf.csv:1: unknown column 'T'\n"
          "f.csv:1: 4 of its columns are unknown here: is it the right file for this command?\n");
}
END_TEST

START_TEST(columns_without_a_header)
{
    READS("name,,length [in],\nA,,1,\nB,,2\nC,x,3,\nD,,4,y\nE,,5,,\n",
          "2 name=A note= length=1" MORE "3 name=B note= length=2" MORE
          "4 bad\nf.csv:4: 'x' stands in column 2, which has no name in the header\n"
          "5 bad\nf.csv:5: 'y' stands in column 4, which has no name in the header\n"
          "6 bad\nf.csv:6: has 5 cells where the header has 4\n");
    READS(",,\n,name,length [in]\n,A,1\n", "3 name=A note= length=1" MORE);
}
END_TEST

START_TEST(columns_given_twice_or_not_at_all)
{
    READS("name,length [in],Length [mm]\n" ROW, "f.csv:1: length: the column is given twice\n");
    READS("name\n" ROW, "f.csv:1: length is missing\n");
    READS("note\n" ROW, "f.csv:1: name and length are missing\n");
}
END_TEST

START_TEST(units_in_headers)
{
    READS("name,length\n" ROW,
          "f.csv:1: length: needs its unit in the header: in, ft, mm, cm or m, as in 'length [in]'\n");
    READS("name,length []\n" ROW, "f.csv:1: length: '' is not a unit for it: use in, ft, mm, cm or m\n");
    READS("name,length [inch]\n" ROW,
          "f.csv:1: length: 'inch' is not a unit for it: use in, ft, mm, cm or m\n");
    READS("name,length [in],load [KN]\n" ROW,
          "f.csv:1: load: 'KN' is not a unit for it: use lbf, kip, N or kN\n");
    READS("name,length [in],hinge [grad]\n" ROW,
          "f.csv:1: hinge: 'grad' is not a unit for it: use deg or rad\n");
    READS("name,length [in\n" ROW, "f.csv:1: length: the bracket around the unit is not closed\n");
    READS("name,length [in] x\n" ROW, "f.csv:1: length: the bracket around the unit is not closed\n");
    READS("name,length [in],share [%]\n" ROW, "f.csv:1: share: takes no unit, but has '%'\n");
    READS("name,length [in],note [in]\n" ROW, "f.csv:1: note: takes no unit, but has 'in'\n");
    READS("name,length [in],shape []\n" ROW, "f.csv:1: shape: takes no unit, but has ''\n");
}
END_TEST

START_TEST(all_faults_of_a_header_are_named)
{
    READS("# comment\nlenght [in],note [x],slope [turn],Note,load\n" ROW,
          "f.csv:2: unknown column 'lenght'; did you mean 'length'?\n"
          "f.csv:2: note: takes no unit, but has 'x'\n"
          "f.csv:2: slope: 'turn' is not a unit for it: use deg or rad\n"
          "f.csv:2: note: the column is given twice\n"
          "f.csv:2: load: needs its unit in the header: lbf, kip, N or kN, as in 'load [lbf]'\n"
          "f.csv:2: name and length are missing\n");
}
END_TEST

START_TEST(a_header_without_end)
{
    text file = {0};
    text_put(&file, "name,length [in]");
    for (int i = 3; i < 5000; i++) text_put(&file, ",note");
    text_put(&file, "\n" ROW);
    text got = read_bytes(file.at, file.length, WHOLE);
    ck_assert_ptr_nonnull(strstr(got.at, "f.csv:1: has 4999 columns: more than 1024 are not read\n"));
    ck_assert_uint_lt(got.length, 100000);
    text_free(&got);
    text_free(&file);
}
END_TEST

/* ---- cells --------------------------------------------------------------------------------------- */

/* One cell of one column, and the message on it without its "f.csv:2: COLUMN: ". */
static void cell(const char *heading, const char *content, size_t n, const char *want)
{
    text file = {0}, message = {0};
    text_format(&file, "name,length [in],%s\nA,1,", heading);
    text_add(&file, content, n);
    text_char(&file, '\n');
    const int name_length = (int)strcspn(heading, " ");
    text_format(&message, "2 bad\nf.csv:2: %.*s: %s\n", name_length, heading, want);
    reads(file.at, file.length, message.at);
    text_free(&file);
    text_free(&message);
}

/* The same for the length, whose unit is named. */
static void length_cell(const char *unit_named, const char *content, const char *want)
{
    text file = {0}, message = {0};
    text_format(&file, "name,length [%s]\nA,%s\n", unit_named, content);
    text_format(&message, "2 bad\nf.csv:2: length: %s\n", want);
    reads(file.at, file.length, message.at);
    text_free(&file);
    text_free(&message);
}
#define CELL(heading, content, want) cell(heading, content, sizeof(content) - 1, want)

START_TEST(cells_that_are_no_numbers)
{
    CELL("load [lbf]", "abc", "'abc' is not a number");
    CELL("load [lbf]", "\"\x1b[1m\"", "'\\x1B[1m' is not a number");
    CELL("load [lbf]", "1 2", "'1 2' is not a number");
    CELL("load [lbf]", "1 25", "'1 25' is not a number");
    CELL("load [lbf]", "\" 5\"", "' 5' is not a number");
    CELL("load [lbf]", "\"12,5\"", "'12,5' is not a number: use a decimal point, as in 12.5");
    CELL("load [lbf]", "\"-0,0625\"", "'-0,0625' is not a number: use a decimal point, as in -0.0625");
    CELL("load [lbf]", "\"1,250\"",
         "'1,250' can be read in two ways: write 1250 or 1.250");
    CELL("load [lbf]", "\"-12,500\"", "'-12,500' can be read in two ways: write -12500 or -12.500");
    CELL("load [lbf]", "\"0,250\"", "'0,250' is not a number: use a decimal point, as in 0.250");
    CELL("load [lbf]", "\"1250,500\"", "'1250,500' is not a number: use a decimal point, as in 1250.500");
    CELL("load [lbf]", "\"1.250,5\"", "'1.250,5' is not a number: write one decimal point and nothing else between the digits");
    CELL("load [lbf]", "\"1,2,3\"", "'1,2,3' is not a number: write one decimal point and nothing else between the digits");
    CELL("load [lbf]", "\"1,250.5\"", "'1,250.5' is not a number: leave out the commas, as in 1250.5");
    CELL("load [lbf]", "\"1,250,000\"", "'1,250,000' is not a number: leave out the commas, as in 1250000");
    CELL("load [lbf]", "\"a,b\"", "'a,b' is not a number");
    CELL("load [lbf]", "12.5 N", "'12.5 N' is not a number: the unit belongs in the header, as in 'load [N]'");
    CELL("load [lbf]", "-3kip", "'-3kip' is not a number: the unit belongs in the header, as in 'load [kip]'");
    CELL("load [lbf]", "12.5 mm", "'12.5 mm' is not a number");
    CELL("load [lbf]", "N", "'N' is not a number");
    CELL("load [lbf]", "kip", "'kip' is not a number");
    CELL("load [lbf]", "inf", "'inf' is not a finite number");
    CELL("load [lbf]", "-Infinity", "'-Infinity' is not a finite number");
    CELL("load [lbf]", "NaN", "'NaN' is not a finite number");
    CELL("load [lbf]", "0x1F", "'0x1F' is not a decimal number");
    CELL("load [lbf]", "1e400", "'1e400' is too large");
    CELL("load [kip]", "-1e307", "'-1e307' is too large");
    CELL("load [lbf]", "12345678901234567890123456789012345678901x",
         "'1234567890123456789012345678901234567890'... is not a number");
    CELL("load [lbf]", "-", "'-' is not a number");
}
END_TEST

#define NOT_A "' is not a number: "
#define DATE "is a date, which a spreadsheet makes of a fraction: type the number as a decimal, 1/16 as 0.0625, in a cell formatted as text"
#define FAILED "is a formula that failed in the spreadsheet: put a number there, or leave the cell empty"
#define GAUGE \
    "is a gauge number, which differs between tables: write the thickness as a length, such as 0.058 in a column in inches"
#define LINE "a fraction must be less than 1, with a denominator of 2, 4, 8, 16, 32, 64 or 128; or write a decimal"

START_TEST(what_a_spreadsheet_made_of_a_number)
{
    static const char *const dates[] = {"16-Jan", "Jan-16", "1/16/2026", "2026-01-16", "16.01.2026", "16 Jan 2026"};
    static const char *const errors[] = {"#DIV/0!", "#N/A", "#VALUE!", "#REF!", "Err:502"};
    text want = {0};
    for (size_t i = 0; i < sizeof dates / sizeof *dates; i++) {
        text_clear(&want);
        text_format(&want, "'%s' " DATE, dates[i]);
        cell("load [lbf]", dates[i], strlen(dates[i]), want.at);
        length_cell("in", dates[i], want.at);
    }
    for (size_t i = 0; i < sizeof errors / sizeof *errors; i++) {
        text_clear(&want);
        text_format(&want, "'%s' " FAILED, errors[i]);
        cell("load [lbf]", errors[i], strlen(errors[i]), want.at);
        cell("end [N-m/rad]", errors[i], strlen(errors[i]), want.at);
    }
    text_free(&want);
    CELL("share", "10%", "'10%" NOT_A "write 0.1 without the percent sign");
    CELL("load [lbf]", "10 %", "'10 %" NOT_A "a percentage has no meaning here");
    CELL("load [lbf]", "1 250", "'1 250" NOT_A "leave nothing between the digits, as in 1250");
    CELL("load [lbf]", "-1'250.5", "'-1'250.5" NOT_A "leave nothing between the digits, as in -1250.5");
    CELL("load [lbf]", "1\xC2\xA0" "250", "'1\xC2\xA0" "250" NOT_A "leave nothing between the digits, as in 1250");
}
END_TEST

START_TEST(words_of_the_shop)
{
    length_cell("in", "16 ga", "'16 ga' " GAUGE);
    length_cell("in", "16GA", "'16GA' " GAUGE);
    length_cell("mm", "16 gauge", "'16 gauge' " GAUGE);
    length_cell("in", "#16", "'#16' " GAUGE);
    length_cell("in", "65 thou", "'65 thou" NOT_A "write 0.065 in a column in inches");
    length_cell("in", "65mils", "'65mils" NOT_A "write 0.065 in a column in inches");
    length_cell("mm", "1-1/4", "'1-1/4" NOT_A "fractions are allowed only in a column whose unit is in or ft; as a decimal it is 1.25, and this "
                                "column is in mm");
    CELL("load [lbf]", "1/2", "'1/2" NOT_A "fractions are allowed only in a column whose unit is in or ft; as a decimal it is 0.5, and this "
                              "column is in lbf");
    CELL("share", "1/2", "'1/2" NOT_A "write the fraction as a decimal, 0.5");
    length_cell("mm", "\"1.25\"\"\"", "'1.25\"" NOT_A "feet and inches are allowed only in a column whose unit is in or ft; in inches it is 1.25");
    length_cell("mm", "3' 6", "'3' 6" NOT_A "feet and inches are allowed only in a column whose unit is in or ft; in inches it is 42");
    length_cell("in", "11/4", "'11/4" NOT_A LINE);
    length_cell("in", "12/25", "'12/25" NOT_A LINE);
    length_cell("in", "1.5/8", "'1.5/8" NOT_A LINE);
    length_cell("in", "1'250", "'1'250" NOT_A "leave nothing between the digits, as in 1250");
    length_cell("in", "3' 12", "'3' 12' is not a number");
}
END_TEST

START_TEST(cells_out_of_range)
{
    CELL("share", "0", "'0' is out of range: must be above 0 and at most 1");
    CELL("share", "1.5", "'1.5' is out of range: must be above 0 and at most 1");
    CELL("slope", "90.5", "'90.5' is out of range: must lie between -90 and 90 deg");
    CELL("slope [deg]", "-91", "'-91' is out of range: must lie between -90 and 90 deg");
    CELL("slope [rad]", "2", "'2' is out of range: must lie between -1.570796327 and 1.570796327 rad");
    CELL("end [N-m/rad]", "-1", "'-1' is out of range: must be at least 0");
    READS("name,length [mm]\nA,0\nB,-5\n", "2 bad\nf.csv:2: length: '0' is out of range: must be above 0\n"
                                           "3 bad\nf.csv:3: length: '-5' is out of range: must be above 0\n");
    READS("name,length [in],slope\nA,1,90\nB,1,-90\n",
          "2 name=A note= length=1 slope=1.5707963267948966 share=0.5 load=0 end=pinned hinge=0 shape=arc\n"
          "3 name=B note= length=1 slope=-1.5707963267948966 share=0.5 load=0 end=pinned hinge=0 shape=arc\n");
}
END_TEST

START_TEST(words_that_are_not_known)
{
    CELL("shape", "parabola", "'parabola' is not known: use sine, arc or kink");
    CELL("shape", "cine", "'cine' is not known: use sine, arc or kink; did you mean 'sine'?");
    CELL("shape", "2", "'2' is not known: use sine, arc or kink");
    CELL("end [N-m/rad]", "free", "'free' is neither a number nor pinned or fixed");
    CELL("end [N-m/rad]", "pined", "'pined' is neither a number nor pinned or fixed; did you mean 'pinned'?");
    CELL("end [N-m/rad]", "12.x", "'12.x' is not a number");
    CELL("end [N-m/rad]", "5 N-m/rad",
         "'5 N-m/rad' is not a number: the unit belongs in the header, as in 'end [N-m/rad]'");
    CELL("hinge", "losse", "'losse' is neither a number nor loose; did you mean 'loose'?");
}
END_TEST

START_TEST(a_number_without_its_unit)
{
    CELL("end", "1200",
         "'1200' has no unit: name it in the header, in-lbf/rad, in-lbf/deg or N-m/rad, as in 'end "
         "[in-lbf/rad]'");
    CELL("end", "0",
         "'0' has no unit: name it in the header, in-lbf/rad, in-lbf/deg or N-m/rad, as in 'end [in-lbf/rad]'");
}
END_TEST

START_TEST(cells_that_must_not_be_empty)
{
    CELL("load [lbf]", "", "is empty: a value is needed");
    CELL("load [lbf]", "\"\"", "is empty: a value is needed");
    CELL("load [lbf]", "  ", "is empty: a value is needed");
    READS("name,length [in]\n,1\n", "2 bad\nf.csv:2: name: is empty: a value is needed\n");
}
END_TEST

START_TEST(bytes_that_are_no_text)
{
    CELL("note", "a\0b", "'a\\x00b' has a NUL byte in it");
    CELL("load [lbf]", "1\0", "'1\\x00' has a NUL byte in it");
    CELL("shape", "sine\0", "'sine\\x00' has a NUL byte in it");
    CELL("end [N-m/rad]",
         "1\0"
         "2",
         "'1\\x002' has a NUL byte in it");
    CELL("note", "caf\xE9", "'caf\\xE9' is not UTF-8");
    CELL("load [lbf]", "\xFF", "'\\xFF' is not UTF-8");
}
END_TEST

START_TEST(all_faults_of_a_row_are_named)
{
    READS("name,length [in],load [lbf],shape,share\n,x,,round,7\nA,1,1,sine,1\n",
          "2 bad\n"
          "f.csv:2: name: is empty: a value is needed\n"
          "f.csv:2: length: 'x' is not a number\n"
          "f.csv:2: load: is empty: a value is needed\n"
          "f.csv:2: shape: 'round' is not known: use sine, arc or kink\n"
          "f.csv:2: share: '7' is out of range: must be above 0 and at most 1\n"
          "3 name=A note= length=1 slope=0 share=1 load=1 end=pinned hinge=0 shape=sine\n");
}
END_TEST

START_TEST(rows_with_too_few_or_too_many_cells)
{
    READS("name,length [in],note\nx,1\nA\n,12,5,x\n\"\"\n",
          "2 bad\nf.csv:2: has 2 cells where the header has 3\n"
          "3 bad\nf.csv:3: has 1 cell where the header has 3\n"
          "4 bad\nf.csv:4: has 4 cells where the header has 3\n");
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, unknown_columns);
    tcase_add_test(cases, columns_without_a_header);
    tcase_add_test(cases, columns_given_twice_or_not_at_all);
    tcase_add_test(cases, units_in_headers);
    tcase_add_test(cases, all_faults_of_a_header_are_named);
    tcase_add_test(cases, a_header_without_end);
    tcase_add_test(cases, cells_that_are_no_numbers);
    tcase_add_test(cases, what_a_spreadsheet_made_of_a_number);
    tcase_add_test(cases, words_of_the_shop);
    tcase_add_test(cases, cells_out_of_range);
    tcase_add_test(cases, words_that_are_not_known);
    tcase_add_test(cases, a_number_without_its_unit);
    tcase_add_test(cases, cells_that_must_not_be_empty);
    tcase_add_test(cases, bytes_that_are_no_text);
    tcase_add_test(cases, all_faults_of_a_row_are_named);
    tcase_add_test(cases, rows_with_too_few_or_too_many_cells);
}

int main(void)
{
    return run_tests("table/messages", fill);
}
