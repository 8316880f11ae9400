/* One load case checked: from the row of a file to the row of an answer. */
#ifndef RAILBOW_PROGRAM_CASE_CHECK_H
#define RAILBOW_PROGRAM_CASE_CHECK_H

#include "cases/detail/detail_results.h"
#include "cases/remark_list.h"
#include "program/materials.h"
#include "program/options.h"

typedef struct checked {
    check_row row;
    char remarks[REMARKS_ROOM]; /* of the row */
} checked;

/* Adds the message of an answer that there is not; `where` follows it, "" for nothing. */
void case_refused(text *complaints, const source_line *at, rbow_status status, const char *where);

/* All that is wrong with a case, as messages that name its columns. Returned: the material, or NULL. */
const rbow_material *case_material(const materials *m, const load_case *c, const source_line *at, text *complaints);

/* Whether the materials have the case's, and a row for its wall where the wall itself is not varied.
 * Returned: false after adding a message. */
bool case_is_served(const materials *m, const load_case *c, bool varies_wall, const source_line *at, text *complaints);

/* Whether --factor does nothing here, because the row gives a factor of its own. */
bool case_has_own_factor(const load_case *c, const options *o);

/* Says of how many rows that is so; nothing for none. */
void say_own_factors(size_t count, const options *o);

/* Whether the details of a case fit on its tube. Returned: false after adding messages that name the lines of the details. */
bool case_details_fit(const load_case *c, const rbow_material *material, text *complaints);

/* Given:    a case as read. Returned: ALL_HOLD, SOME_SHORT, or NO_VERDICT with complaints.
 *           answer stays where it is: its row points into it
 *           each  of the details of the case; NULL: not wanted */
int check_case(const materials *m, const load_case *c, const source_line *at, checked *answer, rbow_detail_result *each, text *complaints);

/* The answer of one detail. Given: r  of the case; each; remarks  where its remarks are written */
detail_answer case_detail_answer(const load_case *c, size_t detail, const rbow_detail_result *each, char remarks[DETAIL_REMARKS_ROOM]);

#endif
