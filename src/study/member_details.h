/* The details of one tube, held against its limits together with the tube itself. */
#ifndef RAILBOW_STUDY_MEMBER_DETAILS_H
#define RAILBOW_STUDY_MEMBER_DETAILS_H

#include "cases/detail/detail_table.h"

typedef struct member_details {
    const detail_row *const *at;
    size_t count;
    const char *file; /* of the table, for messages */
} member_details;

/* A margin is set by a check of the tube (rbow_governs) or by its i-th detail: BY_DETAIL + i. */
enum { BY_DETAIL = RBOW_GOVERNS_COUNT };

/* The name of what governs: of a check, or of a detail. */
const char *governs_name(const member_details *d, int governs);

/* Lowers the result of a tube to that of its weakest detail: margin, verdict, what governs and where, and what the concrete member
 * takes of what is not known. All other numbers stay those of the tube.
 * Given:    d  NULL for none; member, material; result  of rbow_member_check
 * Returned: result
 *           each   of every detail; NULL: not wanted
 *           fault  which detail refuses; NULL: not wanted
 * Status:   RBOW_OK | as rbow_detail_check */
rbow_status details_check(const member_details *d, const rbow_member *member, const rbow_material *material, rbow_result *result,
                          rbow_detail_result *each, size_t *fault);

/* The same for the margin alone. */
rbow_status details_margin(const member_details *d, const rbow_member *member, const rbow_material *material, rbow_margin *margin);

#endif
