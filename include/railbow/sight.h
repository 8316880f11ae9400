/* Sighting with a bar or a string: the miss of a socket and the bow of a tube, from offsets read at stations.
 *
 * Offsets are read up and to the right of a reference line, seen from A toward B, at stations measured from A. Each reading
 * has an error: one standard deviation, independent of the others. All results are weighted least squares, and an error is
 * that of the readings alone, at 95 %. */
#ifndef RAILBOW_SIGHT_H
#define RAILBOW_SIGHT_H

#include <railbow/initial_bow.h>
#include <railbow/status.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_sight_reading {
    double station;   /* in from A                                       */
    double up, right; /* in; NaN: not read; one of the two at least      */
    double error;     /* in, > 0: one standard deviation of each offset  */
} rbow_sight_reading;

/* A value that does not exist is NaN. */
typedef struct rbow_sight {
    double size, clock;      /* in, >= 0, and rad: the miss of a socket, or the bow of a tube; a size of 0 has no clock  */
    double error;            /* in: 95 % error of size along its clock                                                   */
    double major, minor;     /* in: half axes of the 95 % ellipse of up and right together; where one of them was not
                                read, major is the 95 % half-width of the other and minor is NaN                         */
    double major_clock;      /* rad: clock of the major axis                                                             */
    double offset;           /* in, >= 0, a socket: offset of the bar at A, which the miss does not contain              */
    double offset_clock;     /* rad                                                                                      */
    double bow_at;           /* in from A, a tube: the place of the bow, for a kink the corner                           */
    double first, last;      /* in: the first and the last station; between them lies the chord of a tube                */
    double up[2], right[2];  /* in: the line of the socket, or the chord of the tube, at the first and the last station  */
    double misfit;           /* sum of the squares of what the fit leaves, each over its error; NaN for freedom 0        */
    double misfit_most;      /* 95 % of readings with these errors have less; likewise                                   */
    double worst;            /* in: the station of the largest of them; likewise                                         */
    int bow_shape;           /* rbow_bow_shape, a tube                                                                   */
    int freedom;             /* readings beyond those that the fit needs                                                 */
    int significant;         /* 1: size exceeds its error; that of a kink by a seventh (up or right alone: by a quarter),
                                because its corner was looked for */
    int holds;               /* 1: misfit is at most misfit_most, or there is none                                       */
} rbow_sight;

/* A straight bar in a socket: by how much it misses its landing. The reference line is parallel to the line from the socket's
 * centre at A to the landing. The miss is the slope of the bar times the landing.
 * Given:    readings, count  of up at two different stations or more, and of right likewise; either may be left out
 *           landing          in, > 0: distance from A to the joint where the new tube must land
 * Returned: sight  relative error below 1e-9 of the largest offset
 * Status:   RBOW_OK | RBOW_NOT_FINITE | RBOW_BAD_READING_ERROR | RBOW_BAD_LANDING | RBOW_NOT_SIGHTED | RBOW_FEW_UP
 *           | RBOW_FEW_RIGHT | RBOW_SIGHT_STEEP (a slope of more than 10 degrees)
 * Source:   weighted least squares by Givens rotations: Golub & Van Loan, Matrix Computations, 4th ed. 2013, sec. 5.2 (from
 *           memory); the 95 % ellipse has 5.99 = -2 ln 0.05, chi-square of two degrees of freedom. */
RBOW_API rbow_status rbow_sight_socket(const rbow_sight_reading *readings, size_t count, double landing, rbow_sight *sight);

/* A string along a tube: its bow against the chord from the first to the last station. The shape is the one of half wave, arc
 * and kink that fits best: the least misfit + 2 x unknowns (Akaike's criterion, IEEE Trans. Automatic Control 19, 1974, from
 * memory). The corner of a kink is an unknown: a kink needs readings at five stations, and
 * its corner lies between the second and the last but one. Where the readings cannot tell the shapes
 * apart (freedom 0) the shape is the half wave.
 * Given:    readings, count  of up at three different stations or more, and of right likewise; either may be left out
 * Returned: sight  the error of a kink contains that of the place of its corner, to first order
 * Status:   as rbow_sight_socket, without RBOW_BAD_LANDING */
RBOW_API rbow_status rbow_sight_tube(const rbow_sight_reading *readings, size_t count, rbow_sight *sight);

#ifdef __cplusplus
}
#endif

#endif
