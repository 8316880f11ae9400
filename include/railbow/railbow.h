/* railbow: structural check of round chromoly tube as a beam-column with bow and forced fit.
 *
 * One coherent set of units everywhere: inch, pound-force, pound-force per square inch, radian;
 * weight in pounds. Every function is pure: it reads its arguments, writes its result and keeps no state.
 * Any number of threads may call it at once. It allocates no memory and prints nothing.
 *
 * Pointers must not be NULL unless a contract allows it. Numbers may have any value: a NaN or a value outside its stated
 * range gives a status below 0, and then every double of the result is NaN. Structures may grow from one version to the
 * next (version.h): start from the defaults given here or from zeros, and compile again.
 *
 * Directions. x runs from joint A (0) to joint B (length). A clock is an angle seen from A toward B: 0 is up, 90 degrees
 * is to the right. Compression is positive. A moment is positive when the tube's convex
 * side faces its clock direction.
 *
 * The caller must first switch off GSL's error handler, which aborts: gsl_set_error_handler_off(). Otherwise GSL may end
 * the program instead of a status below 0. */
#ifndef RAILBOW_RAILBOW_H
#define RAILBOW_RAILBOW_H

#include <railbow/beamcolumn.h>
#include <railbow/clock.h>
#include <railbow/column.h>
#include <railbow/detail.h>
#include <railbow/forced_fit.h>
#include <railbow/frame.h>
#include <railbow/frame_cut.h>
#include <railbow/initial_bow.h>
#include <railbow/life.h>
#include <railbow/material.h>
#include <railbow/member.h>
#include <railbow/pull.h>
#include <railbow/readings.h>
#include <railbow/release.h>
#include <railbow/sight.h>
#include <railbow/status.h>
#include <railbow/sticks.h>
#include <railbow/stress.h>
#include <railbow/tube.h>
#include <railbow/version.h>
#include <railbow/weld_zone.h>

#endif
