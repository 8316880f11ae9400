/* The status of a function: 0 if its result is valid, below 0 if there is none (outputs are NaN). */
#ifndef RAILBOW_STATUS_H
#define RAILBOW_STATUS_H

#if defined(__GNUC__)
#define RBOW_API __attribute__((visibility("default")))
#else
#define RBOW_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Of a frame alone: as below. */
#define RBOW_FRAME_STATUS_LIST(X) \
    X(RBOW_BAD_JOINT_PLACE, -44, "x", "x, y and z must be finite lengths") \
    X(RBOW_BAD_MASS, -45, "mass", "must be at least 0") \
    X(RBOW_BAD_HELD, -46, "held", "must be fixed, pinned or some of x y z rx ry rz") \
    X(RBOW_JOINT_ALONE, -47, "joint", "is reached by no tube") \
    X(RBOW_NO_SUCH_JOINT, -48, "from", "the tube's joints must be in the list of joints") \
    X(RBOW_TUBE_TO_ITSELF, -49, "to", "must be another joint than from") \
    X(RBOW_TUBE_NO_LENGTH, -50, "to", "lies at the same place as from: the tube has no length") \
    X(RBOW_BAD_TUBE_END_A, -51, "end_a", "must be rigid, pinned or a stiffness of at least 0") \
    X(RBOW_BAD_TUBE_END_B, -52, "end_b", "must be rigid, pinned or a stiffness of at least 0") \
    X(RBOW_BAD_FIXITY, -53, "fixity", "must be above 0") \
    X(RBOW_MISS_A_CLOCK, -54, "miss_a_clock", "is needed where there is a miss") \
    X(RBOW_MISS_B_CLOCK, -55, "miss_b_clock", "is needed where there is a miss") \
    X(RBOW_NO_SUCH_PLACE, -56, "joint", "the load acts on no joint or tube of the frame") \
    X(RBOW_MOMENT_NOT_TAKEN, -57, "moment_x", "acts on a joint to which no tube is rigid") \
    X(RBOW_BAD_LOAD_AT, -58, "at", "must lie between 0 and the length of the tube") \
    X(RBOW_TWO_LOAD_PLACES, -59, "at", "in one run the point loads of one tube must act at one place: put a joint at the other") \
    X(RBOW_NO_FRAME, -60, "", "a frame needs a joint and a tube") \
    X(RBOW_FRAME_NOT_HELD, -61, "held", "the frame is not held: it moves without a force") \
    X(RBOW_MISS_A_PINNED, -62, "miss_a", "needs an end_a that holds a moment (rigid or a stiffness above 0): a pinned end takes any angle") \
    X(RBOW_MISS_B_PINNED, -63, "miss_b", "needs an end_b that holds a moment (rigid or a stiffness above 0): a pinned end takes any angle") \
    X(RBOW_BAD_FRAME_CUT, -64, "at", "must lie between 0 and the length of the tube, and equal neither") \
    X(RBOW_CUT_TWICE, -65, "tube", "is cut twice: the piece between the cuts would drop out") \
    X(RBOW_STUB_NOT_HELD, -66, "tube", "leaves a stub that nothing keeps from turning") \
    X(RBOW_PIECE_NOT_HELD, -67, "run", "loads a piece that comes off and that nothing holds")

/* Of a detail or its life alone: as below. */
#define RBOW_DETAIL_STATUS_LIST(X) \
    X(RBOW_BAD_DETAIL_KIND, -70, "kind", "is not one of the kinds of detail") \
    X(RBOW_BAD_DETAIL_AT, -71, "at", "must lie between 0 and the length of the tube") \
    X(RBOW_BAD_HOLE, -72, "hole", "must be at least 0 and less than the bore of the tube there, od less two walls") \
    X(RBOW_BAD_WALLS, -73, "walls", "must be 1 or 2") \
    X(RBOW_BAD_HOLE_CLOCK, -74, "hole_clock", "must be a finite angle") \
    X(RBOW_BAD_THROAT, -75, "throat", "must be above 0") \
    X(RBOW_BAD_WELD_STRENGTH, -76, "weld_strength", "must be above 0") \
    X(RBOW_BAD_WELD_OD, -77, "weld_od", "must be above 0") \
    X(RBOW_BAD_SLEEVE_OD, -78, "sleeve_od", "must be above 0 and at most the bore of the tube there, od less two walls") \
    X(RBOW_BAD_SLEEVE_WALL, -79, "sleeve_wall", "must be above 0 and at most half of sleeve_od (a solid bar)") \
    X(RBOW_SLEEVE_RULE, -80, "sleeve_wall", "is too thin for sleeve_od: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)") \
    X(RBOW_BAD_STUB_OD, -81, "stub_od", "must fit into the bore of the tube, or have a bore that takes the tube") \
    X(RBOW_BAD_STUB_WALL, -82, "stub_wall", "must be above 0 and at most half of stub_od (a solid bar)") \
    X(RBOW_STUB_RULE, -83, "stub_wall", "is too thin for stub_od: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)") \
    X(RBOW_BAD_OVERLAP, -84, "overlap", "must be above 0") \
    X(RBOW_BAD_ROSETTES, -85, "rosettes", "must be at least 0, and at least 1 where a sleeve carries without a butt weld") \
    X(RBOW_BAD_ROSETTE, -86, "rosette", "must be above 0 and less than the OD of what it joins") \
    X(RBOW_BAD_BUTT, -87, "butt", "must be yes or no") \
    X(RBOW_NO_ULTIMATE, -88, "material", "needs its ultimate strength: rosettes bear on the wall") \
    X(RBOW_BAD_CYCLES, -89, "cycles", "must be above 0") \
    X(RBOW_BAD_CYCLE_LOW, -90, "cycle_low", "must be a finite load factor") \
    X(RBOW_BAD_CYCLE_HIGH, -91, "cycle_high", "must be a finite load factor above cycle_low") \
    X(RBOW_BAD_SN, -92, "sn", "the numbers of the S-N curve are not those of its kind") \
    X(RBOW_SN_NOT_WELD, -93, "sn", "must be a curve of kind weld where rosettes carry")

/* Of what the shop measures and cuts: as below. */
#define RBOW_SHOP_STATUS_LIST(X) \
    X(RBOW_BAD_READING_ERROR, -100, "reading_error", "must be above 0: one standard deviation of a reading") \
    X(RBOW_BAD_LANDING, -101, "landing", "must be above 0: the distance from A to the joint where the new tube lands") \
    X(RBOW_NOT_SIGHTED, -102, "up", "neither up nor right is read") \
    X(RBOW_FEW_UP, -103, "up", "a socket needs readings at two different stations or more, a tube at three or more; or leave all cells of this column empty") \
    X(RBOW_FEW_RIGHT, -104, "right", "a socket needs readings at two different stations or more, a tube at three or more; or leave all cells of this column empty") \
    X(RBOW_SIGHT_STEEP, -105, "up", "the readings slope by more than 10 deg: outside the model's range") \
    X(RBOW_BAD_KERF, -106, "kerf", "must be at least 0") \
    X(RBOW_BAD_PIECE, -107, "length", "of a part must be above 0") \
    X(RBOW_BAD_PIECE_BOW, -108, "bow_most", "must be at least 0; leave it empty where any bow will do") \
    X(RBOW_BAD_STICK, -109, "length", "of a stick must be above 0") \
    X(RBOW_BAD_STICK_BOW, -110, "bow", "must be at least 0; leave it empty where it is not known")

/* name, value, the input at fault ("" for none), the fault and what is allowed */
#define RBOW_STATUS_LIST(X)                                                                                    \
    X(RBOW_OK, 0, "", "fine")                                                                                  \
    X(RBOW_OUT_OF_RANGE, -1, "", "an argument lies outside its stated range")                                  \
    X(RBOW_NO_CONVERGENCE, -2, "", "the numerical solution did not converge")                                  \
    X(RBOW_UNSTABLE, -3, "compression", "is at or above the elastic critical load")                            \
    X(RBOW_NOT_FINITE, -4, "", "a load, distance or angle is not a finite number")                             \
    X(RBOW_BAD_MATERIAL, -5, "material", "its moduli, density and yields must be finite and above 0")          \
    X(RBOW_NO_MEMORY, -6, "", "out of memory")                                                                 \
    X(RBOW_BAD_OD, -10, "od", "must be above 0")                                                               \
    X(RBOW_BAD_WALL, -11, "wall", "must be above 0 and at most half of od (a solid bar)")                      \
    X(RBOW_WALL_RULE, -12, "wall", "is too thin for this od: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)")   \
    X(RBOW_BAD_LENGTH, -13, "length", "must be above 0")                                                       \
    X(RBOW_BAD_END_A, -14, "end_a", "must be pinned, welded, fixed or a stiffness of at least 0")              \
    X(RBOW_BAD_END_B, -15, "end_b", "must be pinned, welded, fixed, free or a stiffness of at least 0")        \
    X(RBOW_FREE_NEEDS_ROOT, -16, "end_a", "must be fixed or a stiffness above 0 where end_b is free")          \
    X(RBOW_BAD_CURVE, -17, "column_curve", "is not one of the column curves")                                  \
    X(RBOW_BAD_ECCENTRICITY, -18, "eccentricity", "must be at least 0; reverse its clock instead")             \
    X(RBOW_BAD_POINT_AT, -19, "point_at", "must lie between 0 and the length")                                 \
    X(RBOW_BAD_SLOPE, -20, "slope", "must lie between -90 and 90 deg")                                         \
    X(RBOW_BAD_BOW, -21, "bow", "must be at least 0; reverse its clock instead")                               \
    X(RBOW_BAD_BOW_SHAPE, -22, "bow_shape", "must be sine, arc or kink")                                       \
    X(RBOW_BAD_BOW_AT, -23, "bow_at", "must lie between 0 and the length, and equal neither")                  \
    X(RBOW_BOW_TOO_STEEP, -24, "bow", "gives a slope of more than 10 deg: outside the model's range")          \
    X(RBOW_BAD_MISS_A, -25, "miss_a", "must be at least 0; reverse its clock instead")                         \
    X(RBOW_MISS_A_TOO_STEEP, -26, "miss_a", "is a slope of more than 10 deg: outside the model's range")       \
    X(RBOW_BAD_MISS_B, -27, "miss_b", "must be at least 0; reverse its clock instead")                         \
    X(RBOW_MISS_B_TOO_STEEP, -28, "miss_b", "is a slope of more than 10 deg: outside the model's range")       \
    X(RBOW_MISS_B_FREE, -29, "miss_b", "must be 0 where end_b is free: there is no landing")                   \
    X(RBOW_GAP_FREE, -30, "gap", "must be 0 where end_b is free: nothing closes it")                           \
    X(RBOW_BAD_GAP_STIFFNESS, -31, "gap_stiffness", "must be above 0; leave it empty for rigid surroundings")  \
    X(RBOW_BAD_WELD_ZONE, -32, "weld_zone", "must lie between 0 and the length")                               \
    X(RBOW_BAD_DRESSED, -33, "dressed", "must be at least 0 and less than the wall")                           \
    X(RBOW_DRESSED_RULE, -34, "dressed", "leaves a wall too thin: D/t may be at most 0.45 E/Fy (AISC 360-16 E7)") \
    X(RBOW_BAD_FACTOR, -35, "factor", "must be above 0")                                                       \
    X(RBOW_BAD_FACTOR_YIELD, -36, "factor_yield", "must be above 0")                                           \
    X(RBOW_WALL_NOT_SERVED, -38, "wall", "is served by no row of this material")                               \
    X(RBOW_BAD_CUT, -39, "cut_at", "must lie between 0 and the length, and equal neither")                     \
    X(RBOW_LOOSE_END_A, -40, "end_a", "must be welded, fixed or a stiffness above 0: it held the moment")      \
    X(RBOW_LOOSE_END_B, -41, "end_b", "must be welded, fixed or a stiffness above 0: it held the moment")      \
    X(RBOW_MISS_A_NOT_HELD, -42, "miss_a", "needs an end_a that holds a moment (welded, fixed or a stiffness above 0): a pinned end takes any angle")  \
    X(RBOW_MISS_B_NOT_HELD, -43, "miss_b", "needs an end_b that holds a moment (welded, fixed or a stiffness above 0): a pinned end takes any angle")  \
    X(RBOW_STRESS_OVERFLOW, -37, "", "the loads are so large that the stress cannot be represented") \
    RBOW_FRAME_STATUS_LIST(X) \
    RBOW_DETAIL_STATUS_LIST(X) \
    RBOW_SHOP_STATUS_LIST(X)

#define RBOW_STATUS_ENUM(name, value, input, text) name = value,
typedef enum rbow_status { RBOW_STATUS_LIST(RBOW_STATUS_ENUM) RBOW_STATUS_END_ = 1 } rbow_status;
#undef RBOW_STATUS_ENUM

/* Given: any status. Returned: the fault and what is allowed; the input at fault ("" for none).
 * An unknown value gives "unknown status". */
RBOW_API const char *rbow_status_text(rbow_status status);
RBOW_API const char *rbow_status_input(rbow_status status);

#ifdef __cplusplus
}
#endif

#endif
