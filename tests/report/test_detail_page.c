/* The block of a detail on a page: drawn to scale, every number that of the library, safe for what users write.
 *
 * With a file name it writes a page of all kinds there, to be looked at: report_detail_page FILE [si] */
#include "detail/details.h"

#include "report/page/detail/detail_card.h"
#include "report/page/detail/detail_drawing.h"
#include "report/page/parts.h"

#include <gsl/gsl_errno.h>
#include <string.h>

typedef struct shown_detail {
    const char *name;
    rbow_member member;
    rbow_detail detail;
} shown_detail;

static rbow_member rail(void)
{
    rbow_member m = tube_of(1.25, .058, 30);
    m.end_a = m.end_b = RBOW_WELDED;
    m.compression = 2500;
    m.bow = .03;
    m.bow_clock = RBOW_ANY_CLOCK;
    m.point_load = 150;
    m.point_at = 12;
    m.torque = 600;
    m.weld_zone = 1;
    return m;
}

enum { SHOWN = 16 };

static size_t shown_details(shown_detail all[SHOWN])
{
    rbow_detail hole = hole_at(10, .25, 1), ring = detail_of(RBOW_DETAIL_RING_WELD, 0), butt = sleeve_at(14, 1.125, .058, 1), thin = butt;
    rbow_detail spare = socket_at(30, 1.375, .0575), inner = socket_at(0, 1.125, .083), loose = sleeve_at(14, 1.12, .049, 0), end = ring, wide = ring;
    size_t n = 0;
    hole.hole_clock = .7;
    spare.rosettes = 3;
    spare.rosette = .4;
    thin.throat = .03;
    end.at = 30;
    end.throat = .041;
    wide.weld_od = 1.375;
    wide.at = 20;
    rbow_member thick = rail();
    thick.od = 2;
    thick.wall = .25;
    all[n++] = (shown_detail){"line hole", rail(), hole};
    all[n++] = (shown_detail){"cross hole", rail(), hole_at(20, .375, 2)};
    all[n++] = (shown_detail){"middle", rail(), detail_of(RBOW_DETAIL_PLACE, 15)};
    all[n++] = (shown_detail){"weld at A", rail(), ring};
    all[n++] = (shown_detail){"weld at B", rail(), end};
    all[n++] = (shown_detail){"collar", rail(), wide};
    all[n++] = (shown_detail){"splice", rail(), butt};
    all[n++] = (shown_detail){"thin splice", rail(), thin};
    all[n++] = (shown_detail){"sleeve alone", rail(), loose};
    all[n++] = (shown_detail){"socket over", rail(), spare};
    all[n++] = (shown_detail){"socket into", rail(), inner};
    rbow_detail lengthy = butt, brief = loose, deep = spare;
    lengthy.overlap = 9;
    brief.overlap = .3;
    deep.overlap = 12;
    all[n++] = (shown_detail){"long sleeve", rail(), lengthy};
    all[n++] = (shown_detail){"short sleeve", rail(), brief};
    all[n++] = (shown_detail){"deep socket", rail(), deep};
    all[n++] = (shown_detail){"thick tube", thick, sleeve_at(14, 1.5, .25, 0)};
    return n;
}

typedef struct block { /* a detail with all that its block needs */
    rbow_detail_result result;
    rbow_member taken;
    detail_state states[DETAIL_STATES];
    detail_worked worked;
    working w;
} block;

static void fill_block(block *b, const shown_detail *s, unit_system units)
{
    ck_assert_int_eq(rbow_detail_check(&s->detail, &s->member, &steel, &b->result), RBOW_OK);
    b->taken = detail_member_taken(&s->member, &steel, &b->result);
    for (int i = 0; i < DETAIL_STATES; i++)
        b->states[i].status = rbow_member_forces(&b->taken, &steel, detail_state_factor(&b->result, i), s->detail.at, &b->states[i].forces);
    b->worked = (detail_worked){"rail", "", s->name, "", &s->detail, &b->taken, &steel, &b->result};
    ck_assert(detail_working_of(&b->w, &s->detail, &b->taken, &steel, &b->result, units));
}

static const run_facts facts = {.version = "test", .materials = "test", .materials_sha256 = ""};
static block one;

static void put_block(text *out, const shown_detail *s, const char *name, const char *note, unit_system units)
{
    const page_head head = {.title = "Details", .units = units, .facts = &facts};
    fill_block(&one, s, units);
    one.worked.name = name;
    one.worked.note = note;
    page_detail_card(out, &head, &one.worked, one.states, &one.w);
    working_free(&one.w);
}

/* ---- reading it back ------------------------------------------------------------------------------------------------ */

/* Every tag that opens closes, in order. */
static void well_formed(const char *html)
{
    char open[64][16];
    size_t depth = 0;
    for (const char *at = strchr(html, '<'); at != NULL; at = strchr(at, '<')) {
        const char *end = strchr(at, '>');
        ck_assert_ptr_nonnull(end);
        const bool closes = at[1] == '/';
        char name[16] = "";
        sscanf(at + 1 + closes, "%15[a-z0-9]", name);
        ck_assert_msg(*name != '\0', "%.40s", at);
        if (closes) {
            ck_assert_msg(depth > 0 && strcmp(open[depth - 1], name) == 0, "</%s> closes <%s>", name, depth > 0 ? open[depth - 1] : "");
            depth--;
        } else if (end[-1] != '/') {
            ck_assert_uint_lt(depth, 64);
            strcpy(open[depth++], name);
        }
        at = end;
    }
    ck_assert_uint_eq(depth, 0);
}

/* The area that the hatch of the cut tube covers: the length of its lines times their distance, in square inches of the tube. */
static double hatched_area(const char *svg, double scale)
{
    double length = 0;
    for (const char *at = svg; (at = strstr(at, "<path d=\"M0 0")) != NULL;) {
        const char *end = strchr(at + 9, '"');
        double x, y, x2, y2;
        for (const char *line = at + 13; line < end && sscanf(line, "M%lf %lfL%lf %lf", &x, &y, &x2, &y2) == 4;) {
            length += hypot(x2 - x, y2 - y);
            line = strchr(line + 1, 'M');
            if (line == NULL || line > end) break;
        }
        at = end;
    }
    return length * 4 / (scale * scale);
}

/* What is hatched in the drawing of a hole is the section that the library calculates with. */
START_TEST(the_net_section_is_to_scale)
{
    for (int i = 0; i < 12; i++) {
        shown_detail s = {"hole", rail(), hole_at(15, .1 + .07 * i, 1 + i % 2)};
        s.member.wall = .12;
        s.detail.hole_clock = .3 * i;
        text out = {0};
        rbow_net_section n;
        ck_assert_int_eq(rbow_net_section_of(1.25, .12, s.detail.hole, s.detail.walls, &n), RBOW_OK);
        fill_block(&one, &s, UNITS_US);
        page_detail_drawing(&out, &one.worked, UNITS_US);
        near_within(hatched_area(out.at, 124 / 1.25), n.area, .03, 0); /* lines 4 units apart in a wall of 12 */
        working_free(&one.w);
        text_free(&out);
    }
}
END_TEST

/* The first box of a class: how wide and high it is drawn. */
static void drawn_box(const char *svg, const char *class, double size[2])
{
    const char *end = strstr(svg, class), *at = end;
    double x[4], y[4];
    ck_assert_ptr_nonnull(end);
    while (strncmp(at, "<path", 5) != 0) at--;
    ck_assert_int_eq(sscanf(at, "<path d=\"M%lf %lfL%lf %lfL%lf %lfL%lf %lf", &x[0], &y[0], &x[1], &y[1], &x[2], &y[2], &x[3], &y[3]), 8);
    size[0] = fabs(x[1] - x[0]);
    size[1] = fabs(y[2] - y[1]);
}

/* Length and wall of the sleeve keep the proportion that they have. */
START_TEST(the_splice_is_to_scale)
{
    for (int i = 0; i < 6; i++) {
        shown_detail s = {"splice", rail(), sleeve_at(14, 1.1, .05 + .02 * i, i % 2)};
        text out = {0};
        double drawn[2];
        s.detail.overlap = 1 + .4 * i;
        fill_block(&one, &s, UNITS_US);
        page_detail_drawing(&out, &one.worked, UNITS_US);
        drawn_box(out.at, "part-other", drawn);
        near_within(drawn[1] / drawn[0], s.detail.sleeve_wall / (2 * s.detail.overlap), .01, 0);
        working_free(&one.w);
        text_free(&out);
    }
}
END_TEST

START_TEST(blocks_of_all_kinds)
{
    static shown_detail all[SHOWN];
    const size_t count = shown_details(all);
    for (size_t i = 0; i < count; i++)
        for (int si = 0; si < 2; si++) {
            text out = {0};
            put_block(&out, &all[i], all[i].name, "", si ? UNITS_SI : UNITS_US);
            ck_assert(!out.failed);
            well_formed(out.at);
            ck_assert_ptr_null(strstr(out.at, "nan"));
            ck_assert_ptr_null(strstr(out.at, "inf,"));
            ck_assert_ptr_nonnull(strstr(out.at, "role=\"img\" aria-label=\""));
            ck_assert_ptr_nonnull(strstr(out.at, "to scale</title>"));
            ck_assert_ptr_nonnull(strstr(out.at, one.result.verdict == RBOW_HOLDS ? "✓ holds" : "✗ SHORT"));
            ck_assert_ptr_nonnull(strstr(out.at, "<details><summary>"));
            for (int k = 0; k < RBOW_DETAIL_REMARK_COUNT; k++)
                ck_assert_int_eq((one.result.remarks >> k & 1) != 0, strstr(out.at, k == RBOW_DETAIL_THROAT_TAKEN_AT ? "No throat was given"
                    : k == RBOW_DETAIL_UNDER_TWO_AT ? "under twice the run load" : k == RBOW_DETAIL_PLAYS_AT ? "draws the joint tight"
                    : k == RBOW_DETAIL_LOOSE_AT ? "The fit is looser" : k == RBOW_DETAIL_SHORT_OVERLAP_AT ? "The overlap is under"
                    : k == RBOW_DETAIL_THIN_SLEEVE_AT ? "is thinner than that" : k == RBOW_DETAIL_ROSETTE_AT ? "The rosettes are outside"
                    : k == RBOW_DETAIL_THICK_THROAT_AT ? "The throat is larger" : "has no equilibrium at") != NULL);
            text_free(&out);
        }
}
END_TEST

START_TEST(what_users_write_is_text)
{
    static shown_detail all[SHOWN];
    shown_details(all);
    text out = {0};
    put_block(&out, &all[6], "\"><script>alert(1)</script>", "<b>& '\"", UNITS_US);
    well_formed(out.at);
    ck_assert_ptr_null(strstr(out.at, "<script"));
    ck_assert_ptr_null(strstr(out.at, "<b>"));
    ck_assert_ptr_nonnull(strstr(out.at, "aria-label=\"&quot;&gt;&lt;script&gt;"));
    text_free(&out);
}
END_TEST

/* A tube that buckles at once has no forces to show. */
START_TEST(without_a_state)
{
    shown_detail s = {"weak", rail(), hole_at(10, .2, 2)};
    text out = {0};
    s.member.compression = 40000;
    put_block(&out, &s, s.name, "", UNITS_US);
    well_formed(out.at);
    ck_assert_ptr_nonnull(strstr(out.at, "has no equilibrium at load factor 1"));
    ck_assert_ptr_null(strstr(out.at, "nan"));
    text_free(&out);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, the_net_section_is_to_scale);
    tcase_add_test(c, the_splice_is_to_scale);
    tcase_add_test(c, blocks_of_all_kinds);
    tcase_add_test(c, what_users_write_is_text);
    tcase_add_test(c, without_a_state);
}

static const char *page_file;
static unit_system page_units;

START_TEST(write_page)
{
    static shown_detail all[SHOWN];
    const size_t count = shown_details(all);
    const page_head head = {.title = "Details of all kinds", .units = page_units, .facts = &facts};
    text out = {0};
    FILE *f = fopen(page_file, "w");
    ck_assert_ptr_nonnull(f);
    page_open(&out, &head);
    for (size_t i = 0; i < count; i++) put_block(&out, &all[i], all[i].name, "", page_units);
    page_close(&out, &head);
    fputs(page_said(&out), f);
    text_free(&out);
    ck_assert_int_eq(fclose(f), 0);
}
END_TEST

static void fill_page(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_add_test(c, write_page);
}

int main(int arguments, char **words)
{
    page_file = arguments > 1 ? words[1] : NULL;
    page_units = arguments > 2 ? UNITS_SI : UNITS_US;
    return run_tests("page of details", page_file != NULL ? fill_page : fill);
}
