/* The readings of one line: miss or bow, and a verdict. */
#ifndef RAILBOW_STUDY_SIGHTING_H
#define RAILBOW_STUDY_SIGHTING_H

#include "cases/shop/sight_table.h"

/* Given:    row   its line, kind, landing, and its readings, at and count
 * Returned: row   filled
 *           the status of rbow_sight_socket or rbow_sight_tube */
rbow_status sight_line(sight_row *row);

#endif
