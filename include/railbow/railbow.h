/* railbow: structural check of round chromoly tube as a beam-column with bow and forced fit.
 *
 * One coherent set of units everywhere: inch, pound-force, pound-force per square inch, radian;
 * weight in pounds. Every function is pure: it reads what it is given, writes its result, keeps nothing,
 * and may be called from any number of threads at once. It allocates no memory and prints nothing.
 *
 * Pointers must not be NULL, except where a contract says so. Numbers may be anything: a NaN, or a value out of its
 * stated range, gives a status below 0, and then every double of the result is NaN. Structures may grow from one
 * version to the next (version.h): begin from the defaults given here or from zeros, and compile anew.
 *
 * Directions. x runs from joint A (0) to joint B (length). Looking from A toward B a clock angle is 0 up,
 * 90 degrees to the right, clockwise. Compression is positive. A moment is positive when the tube's convex
 * side faces its clock direction.
 *
 * The caller switches GSL's aborting error handler off first: gsl_set_error_handler_off(); else GSL may end the program
 * where a status below 0 is due. */
#ifndef RAILBOW_RAILBOW_H
#define RAILBOW_RAILBOW_H

#include <railbow/beamcolumn.h>
#include <railbow/clock.h>
#include <railbow/column.h>
#include <railbow/forced_fit.h>
#include <railbow/initial_bow.h>
#include <railbow/material.h>
#include <railbow/member.h>
#include <railbow/pull.h>
#include <railbow/readings.h>
#include <railbow/release.h>
#include <railbow/status.h>
#include <railbow/stress.h>
#include <railbow/tube.h>
#include <railbow/version.h>
#include <railbow/weld_zone.h>

#endif
