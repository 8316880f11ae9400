/* Details of a tube: holes, ring welds, sleeves and sockets. A detail is a place on a tube with a strength of its own.
 *
 * Each mode of a detail has a utilisation that is 1 at its limit. Yield modes are held against factor_yield of the member, the
 * others against factor: their limits are nominal strengths at rupture. Left out: stress concentration (see life.h), shear in
 * the tube itself, the residual stress of a weld. A weld is taken as sound. */
#ifndef RAILBOW_DETAIL_H
#define RAILBOW_DETAIL_H

#include <railbow/frame.h>
#include <railbow/member.h>

#ifdef __cplusplus
extern "C" {
#endif

/* value, name as in files */
#define RBOW_DETAIL_KIND_LIST(X)                                                    \
    X(RBOW_DETAIL_PLACE, "place")           /* the tube itself                   */ \
    X(RBOW_DETAIL_HOLE, "hole")             /* a cross hole                      */ \
    X(RBOW_DETAIL_RING_WELD, "ring weld")   /* a weld round the tube             */ \
    X(RBOW_DETAIL_SLEEVE, "sleeve")         /* an inner sleeve over a butt       */ \
    X(RBOW_DETAIL_SOCKET, "socket")         /* a slip fit over or into a stub    */
#define RBOW_DETAIL_ENUM(value, name) value,
typedef enum rbow_detail_kind { RBOW_DETAIL_KIND_LIST(RBOW_DETAIL_ENUM) RBOW_DETAIL_KIND_COUNT } rbow_detail_kind;

/* What limits a detail: value, name as in files. The first RBOW_DETAIL_MODES have a utilisation. */
#define RBOW_DETAIL_MODE_LIST(X)                                                                           \
    X(RBOW_DETAIL_BY_YIELD, "yield")        /* first yield of the section, von Mises                    */ \
    X(RBOW_DETAIL_BY_WELD, "weld")          /* rupture of the ring weld's throat                        */ \
    X(RBOW_DETAIL_BY_ROSETTES, "rosettes")  /* rupture of the rosettes in shear                         */ \
    X(RBOW_DETAIL_BY_BEARING, "bearing")    /* bearing of the rosettes on the thinner wall              */ \
    X(RBOW_DETAIL_BY_BUCKLING, "buckling")  /* the tube as a whole reaches its elastic critical load first */ \
    X(RBOW_DETAIL_BY_NONE, "none")
typedef enum rbow_detail_mode { RBOW_DETAIL_MODE_LIST(RBOW_DETAIL_ENUM) RBOW_DETAIL_MODE_COUNT } rbow_detail_mode;
#undef RBOW_DETAIL_ENUM
enum { RBOW_DETAIL_MODES = RBOW_DETAIL_BY_BUCKLING };

/* psi: F_EXX where none is given, that of AWS ER70S-2 and its like; common practice, no source */
#define RBOW_DETAIL_FILLER 70e3

/* A detail; only the sizes of its kind count. RBOW_UNSET is a default that depends on other inputs. */
typedef struct rbow_detail {
    int kind;              /* rbow_detail_kind */
    double at;             /* in from A, 0 ... length */
    double hole;           /* in, >= 0: diameter of the hole, below the bore of the tube */
    int walls;             /* 1 or 2: through one wall or both */
    double hole_clock;     /* rad: the hole's axis, of one wall the side to which it opens; RBOW_ANY_CLOCK: the worst */
    double throat;         /* in, > 0; RBOW_UNSET: the wall (of a fillet with leg = wall it is only 0.707 wall) */
    double weld_strength;  /* psi, > 0: F_EXX of the filler; RBOW_UNSET: RBOW_DETAIL_FILLER */
    double weld_od;        /* in, > 0; RBOW_UNSET: OD of the tube there; ring weld alone */
    double sleeve_od, sleeve_wall; /* in; the sleeve fits into the bore */
    double stub_od, stub_wall;     /* in; the stub fits over the tube or into its bore */
    double overlap;        /* in, > 0: of a sleeve, each side of the butt; of a socket, its depth */
    int rosettes;          /* >= 0; of a sleeve, each side. Of a socket they are spare and not counted */
    double rosette;        /* in, > 0 where there are rosettes: diameter */
    int butt;              /* of a sleeve: 1 if the tubes' ends are welded round, else 0 and the sleeve carries alone */
} rbow_detail;

/* The remarks on a detail: value, text as in files. */
#define RBOW_DETAIL_REMARK_LIST(X)                                                                                         \
    X(RBOW_DETAIL_UNSTABLE, "unstable as loaded")     /* no equilibrium at load factor 1                                */ \
    X(RBOW_DETAIL_UNDER_TWO, "weld factor under 2")   /* AISC 360 J2.4 divides the nominal strength by 2 (from memory)  */ \
    X(RBOW_DETAIL_THROAT_TAKEN, "throat taken as the wall") /* none was given: a fillet of leg = wall has 0.707 wall    */ \
    X(RBOW_DETAIL_THICK_THROAT, "throat above the wall")    /* common practice, no source: the wall beside it governs   */ \
    X(RBOW_DETAIL_LOOSE, "clearance over 1/16 in")    /* on the diameter: FAA AC 43.13-1B 4-95 (quoted second hand)      */ \
    X(RBOW_DETAIL_PLAYS, "play over 1/16 in")         /* at the tube's far end; common practice, no source              */ \
    X(RBOW_DETAIL_SHORT_OVERLAP, "overlap under 1.5 D") /* FAA AC 43.13-1B 4-92, 4-97: reach of a sleeve past the cut   */ \
    X(RBOW_DETAIL_THIN_SLEEVE, "wall under the tube's") /* of the sleeve or stub: FAA AC 43.13-1B 4-92                  */ \
    X(RBOW_DETAIL_ROSETTE, "rosettes outside AISC J2.3b") /* hole from t + 5/16 in to the larger of t + 7/16 in and
                                                        2.25 t, pitch round the tube 4 diameters; from memory           */
#define RBOW_DETAIL_REMARK_AT(value, text) value##_AT,
#define RBOW_DETAIL_REMARK_BIT(value, text) value = 1 << value##_AT,
enum { RBOW_DETAIL_REMARK_LIST(RBOW_DETAIL_REMARK_AT) RBOW_DETAIL_REMARK_COUNT };
enum { RBOW_DETAIL_REMARK_LIST(RBOW_DETAIL_REMARK_BIT) RBOW_DETAIL_REMARKS_END_ = 0 };
#undef RBOW_DETAIL_REMARK_AT
#undef RBOW_DETAIL_REMARK_BIT

typedef struct rbow_net_section { /* at the middle of a cross hole */
    double area;           /* in^2 */
    double inertia_along;  /* in^4, about its own centroid: for moments toward the hole's axis  */
    double inertia_across; /* in^4: for moments across the hole's axis                          */
    double shift;          /* in, >= 0: centroid from the tube's axis, away from a hole in one wall */
    double edge, half;     /* in: corner of the hole on the outside of the tube, along its axis and across it */
    double radius;         /* in, outside */
} rbow_net_section;

/* The section that a hole leaves, exact for the round annulus.
 * Given:    od, wall  in, as rbow_section_of
 *           hole      in, >= 0 and below the bore
 *           walls     1 or 2
 * Returned: net
 * Status:   RBOW_OK | RBOW_BAD_OD | RBOW_BAD_WALL | RBOW_BAD_HOLE | RBOW_BAD_WALLS
 * Source:   integrals of strips across the hole, elementary; see the .c file */
RBOW_API rbow_status rbow_net_section_of(double od, double wall, double hole, int walls, rbow_net_section *net);

/* A detail with every value at its default: a place; through both walls, butt welded, no rosettes; sizes without a default NaN. */
RBOW_API rbow_detail rbow_detail_default(void);

/* All that is wrong with a detail, in the order of its fields.
 * Given:    detail; member and material, without faults; room for `most` statuses (may be NULL where most is 0)
 * Returned: how many there are; the first `most` of them */
RBOW_API size_t rbow_detail_faults(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                                   rbow_status *faults, size_t most);

/* The utilisation of each mode under given forces.
 *   place      yield of the tube there, as in stress.h
 *   hole       first yield of the net section at the hole's edge or the far fibre, with 3 tau^2. The push acts on the axis of
 *              the tube: with a hole in one wall it bends the net section. tau from the net polar inertia
 *   ring weld  line method: f_n = P/(pi d) +- M/(pi d^2/4), f_t = T/(pi d^2/2) + 2V/(pi d), the peak of the ring;
 *              sqrt(f_n^2 + f_t^2)/(0.6 F_EXX throat)
 *   sleeve     butt welded: the tube with its weld yield, and the line method where the throat is less than the wall.
 *              Otherwise the sleeve alone with the weld yield; the rosettes, sqrt((P/n)^2 + (T/(n d/2))^2)/(0.6 F_EXX pi
 *              rosette^2/4), d the OD of the sleeve; their bearing 2.4 rosette t F_u on the thinner wall
 *   socket     ring weld at the mouth, on the OD of the inner tube; the weaker of tube and stub with the weld yield
 * Given:    detail, member, material; forces
 * Returned: use     of each mode; NaN where the kind does not have it
 * Status:   RBOW_OK | the first of rbow_member_faults, of rbow_detail_faults | RBOW_STRESS_OVERFLOW
 * Source:   weld as a line: Blodgett, Design of Welded Structures, 7.4, table 5 (from memory); 0.6 F_EXX: AISC 360-10 J2.4
 *           (from memory); bearing 2.4 d t F_u: AISC 360-10 J3.10 (from memory) */
RBOW_API rbow_status rbow_detail_use(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                                     const rbow_section_forces *forces, double use[RBOW_DETAIL_MODES]);

/* What acts at a place of a concrete member (all its numbers known: rbow_member_taken).
 * Given:    member, material
 *           factor   load factor, any sign
 *           at       in from A; at a point load or kink, the values on the side with the larger shear
 * Returned: forces   NaN after a failure
 * Status:   RBOW_OK | the first of rbow_member_faults | RBOW_OUT_OF_RANGE (a place outside the tube, an unknown left)
 *           | RBOW_UNSTABLE (no equilibrium) | RBOW_STRESS_OVERFLOW */
RBOW_API rbow_status rbow_member_forces(const rbow_member *member, const rbow_material *material, double factor, double at,
                                        rbow_section_forces *forces);

typedef struct rbow_detail_result { /* all doubles first; NaN: does not exist */
    double margin;                   /* lowest of the modes: load factor over the one asked for, less 1 */
    double factor;                   /* first load factor >= 0 at which any mode reaches its limit; INFINITY: never */
    double yield_factor, weld_factor; /* of the yield mode, and of the others together; INFINITY: never, or none */
    double axial, torque;            /* lbf, in-lbf, at load factor 1 */
    double moment, moment_clock;     /* in-lbf >= 0, rad of its convex side, at load factor 1 */
    double shear;                    /* lbf >= 0, at load factor 1 */
    double clearance;                /* in, on the diameter: bore less OD; sleeve and socket */
    double play;                     /* in, to either side at the tube's far end, unless drawn tight by the weld:
                                        clearance/overlap times the longer way to a joint */
    double prying;                   /* lbf: M/(2/3 overlap), the contact couple of a sleeve or socket at load factor 1 */
    double bow_clock_taken, miss_a_clock_taken, miss_b_clock_taken, eccentricity_clock_taken; /* rad; NaN without one */
    int verdict;                     /* rbow_verdict */
    int mode;                        /* rbow_detail_mode of the margin */
    int joints_taken;                /* rbow_joints of the concrete member that governs */
    int fit_taken;                   /* rbow_fit_taken of it */
    int in_weld_zone;                /* the place lies in a weld zone or on its border */
    unsigned remarks;                /* RBOW_DETAIL_... bits */
} rbow_detail_result;

/* The check of one detail: its own worst concrete member over all unknowns, as rbow_member_check takes for the tube.
 * A load factor ends at the elastic critical one, where the tube buckles whatever the detail is; without a push one above 1e6 is
 * INFINITY.
 * Given:    detail, member, material
 * Returned: result
 * Status:   RBOW_OK | the first of rbow_member_faults, of rbow_detail_faults | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW
 * Validity: as rbow_member_check */
RBOW_API rbow_status rbow_detail_check(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                                       rbow_detail_result *result);

/* ---- details of a frame ------------------------------------------------------------------------------------- */

/* What acts at a place of one tube of a frame in a state. The loads of the run act in full proportion to the factor.
 * Given:    solver, run; factor, any sign; fit; tube; at  in from A, as in rbow_member_forces
 * Returned: forces
 * Status:   RBOW_OK | RBOW_UNSTABLE (no state) | RBOW_OUT_OF_RANGE */
RBOW_API rbow_status rbow_frame_forces(rbow_frame_solver *solver, const rbow_frame_run *run, double factor, int fit, size_t tube,
                                       double at, rbow_section_forces *forces);

/* All that is wrong with a detail of a tube of a frame, as rbow_detail_faults. Given: frame, without faults; tube */
RBOW_API size_t rbow_frame_detail_faults(const rbow_frame *frame, size_t tube, const rbow_detail *detail, rbow_status *faults, size_t most);

typedef struct rbow_frame_detail { /* a detail of a tube of a frame */
    size_t tube;
    rbow_detail detail;
} rbow_frame_detail;

/* The check of details of a frame in one run: of each the lower of as built and unforced, and of both sides of bows of unknown clock,
 * as the check of the tubes. A load factor ends where the path ends. joints_taken is RBOW_JOINTS_NONE, the clocks NaN.
 * Given:    solver, run; details, count
 * Returned: results  of each
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE (no such tube) | the first of rbow_frame_detail_faults | RBOW_NO_CONVERGENCE
 *           | RBOW_STRESS_OVERFLOW
 * May miss: as the check of the tubes: a rise over the limit and back within 1/200 of the load factor required */
RBOW_API rbow_status rbow_frame_details_check(rbow_frame_solver *solver, const rbow_frame_run *run, const rbow_frame_detail *details,
                                              size_t count, rbow_detail_result *results);

/* The same of one. */
RBOW_API rbow_status rbow_frame_detail_check(rbow_frame_solver *solver, const rbow_frame_run *run, size_t tube, const rbow_detail *detail,
                                             rbow_detail_result *result);

/* The lowest margin of a run, of its tubes and details: as rbow_frame_margin, for studies that need it many times.
 * Given:    solver, run, details (may be NULL where count is 0), count; most  as there
 * Returned: lowest  governs RBOW_FRAME_BY_NONE and governs_at the place where a detail has it
 *           detail  which has it; count where a tube does, or none is lower
 * Status:   as rbow_frame_margin, rbow_frame_details_check */
RBOW_API rbow_status rbow_frame_details_margin(rbow_frame_solver *solver, const rbow_frame_run *run, const rbow_frame_detail *details,
                                               size_t count, double most, rbow_frame_lowest *lowest, size_t *detail);

/* The margin of one tube and its details in a run: as rbow_frame_details_margin, and faster than it, for nothing is searched on the
 * other tubes.
 * Given:    solver, run, tube; details, count  on that tube; most  as there
 * Returned: margin  `most` where it is not lower; NaN after a failure
 * Status:   as rbow_frame_details_margin | RBOW_OUT_OF_RANGE (no such tube, a detail on another one) */
RBOW_API rbow_status rbow_frame_tube_margin(rbow_frame_solver *solver, const rbow_frame_run *run, size_t tube,
                                            const rbow_frame_detail *details, size_t count, double most, double *margin);

/* Names, as in files; NULL for any other value. The text of one remark bit. */
RBOW_API const char *rbow_detail_kind_name(int kind);
RBOW_API const char *rbow_detail_mode_name(int mode);
RBOW_API const char *rbow_detail_remark_text(unsigned bit);

#ifdef __cplusplus
}
#endif

#endif
