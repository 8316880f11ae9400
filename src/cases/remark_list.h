/* The meaning of each remark of a check, by its bit in the public header. */
#ifndef RAILBOW_CASES_REMARK_LIST_H
#define RAILBOW_CASES_REMARK_LIST_H

#include <railbow/member.h>

typedef struct remark_meaning {
    unsigned bit;         /* of the remarks of a result */
    const char *meaning;  /* a clause that follows the remark and a colon */
    const char *sentence; /* sentences: the meaning, and what to do */
} remark_meaning;

/* All remarks, in the order in which they are printed. */
extern const remark_meaning remark_list[RBOW_REMARK_COUNT];

#define REMARK_JOINED(value, text) text "; "
enum { REMARKS_ROOM = sizeof(RBOW_REMARK_LIST(REMARK_JOINED)) }; /* bytes of all remarks together */

/* One more remark behind those of `out`, which has room for it. */
void remark_add(char *out, const char *remark);

/* All remarks of a result, separated by semicolons. */
void remarks_write(char out[REMARKS_ROOM], unsigned remarks);

/* The remark of a tube of a frame that comes last, and its meaning. */
#define NEAR_BUCKLING "near frame buckling"
extern const char near_buckling_meaning[];
enum { FRAME_REMARKS_ROOM = REMARKS_ROOM + sizeof NEAR_BUCKLING };

/* The same for a tube of a frame. */
void frame_remarks_write(char out[FRAME_REMARKS_ROOM], unsigned remarks, int near_buckling);

#endif
