"""What is not known of a member, taken at its worst: the results that check must give.

Each welded end is soft and stiff, each unknown direction ("any") the worst, and what is locked in is kept or gone; every
combination is a concrete member of rules.py.
"""
import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import minimize, minimize_scalar

from rules import TIE, Case, governing

ANY = "any"
FIT = {"miss_a": 1, "miss_b": 2, "gap": 4}
CLOCKS = {"bow_clock": "bow", "miss_a_clock": "miss_a", "miss_b_clock": "miss_b", "eccentricity_clock": "eccentricity"}
ENDS = ("soft", "stiff")
STEP = 30.0


@dataclass
class Scenario:
    """A concrete member, and the least of its load factors over those asked for."""
    case: Case
    joints: str
    fit: str
    kept: int
    factors: tuple = ()
    ratio: float = math.inf

    def work_out(self):
        self.factors = self.case.factors()
        self.ratio = 1.0 + min(self.case.margins(self.factors).values())
        return self


def corners(member):
    """The member with each welded end soft and stiff, and what that is called."""
    found = []
    for a in ENDS if member.end_a == "welded" else (None,):
        for b in ENDS if member.end_b == "welded" else (None,):
            named = [end for end in (a, b) if end]
            joints = "" if not named else named[0] if len(set(named)) == 1 else "/".join(named)
            found.append((joints, replace(member, end_a=a or member.end_a, end_b=b or member.end_b)))
    return found


def fits(member):
    """What is kept, and its name: as built, relaxed, unforced."""
    locked = sum(bit for name, bit in FIT.items() if getattr(member, name))
    kept = [bits for bits in range(locked, -1, -1) if bits & ~locked == 0]
    return [(bits, "as built" if bits == locked else "relaxed" if bits else "unforced") for bits in kept]


def unknown(member):
    """The clocks that are not known and belong to something."""
    return [clock for clock, size in CLOCKS.items() if getattr(member, clock) == ANY and getattr(member, size)
            and (size != "eccentricity" or member.compression)]


def known(member):
    """Clocks that belong to nothing have no direction."""
    return replace(member, **{clock: 0.0 for clock in CLOCKS if getattr(member, clock) == ANY})


def worst_direction(member, resolution):
    """The clocks with the lowest ratio, in degrees: even steps, then the lowest two refined."""
    clocks = unknown(member)
    if not clocks:
        return {}

    def ratio(at):
        case = Case(known(replace(member, **dict(zip(clocks, map(float, at))))), resolution)
        return 1.0 + min(case.margins(case.factors()).values())

    even = np.arange(0.0, 360.0, STEP)
    places = np.stack(np.meshgrid(*[even] * len(clocks), indexing="ij"), axis=-1).reshape(-1, len(clocks))
    found = sorted((ratio(at), tuple(at)) for at in places)
    for _, start in found[:2]:
        if len(clocks) == 1:
            best = minimize_scalar(lambda at: ratio([at]), bounds=(start[0] - STEP, start[0] + STEP),
                                   method="bounded", options={"xatol": 1e-5})
            found.append((best.fun, (best.x % 360.0,)))
        else:
            best = minimize(ratio, start, method="Nelder-Mead", options={"xatol": 1e-4, "fatol": 1e-13, "maxfev": 150})
            found.append((best.fun, tuple(best.x % 360.0)))
    lowest = min(found)[0]
    return dict(zip(clocks, min(at for value, at in found if value <= lowest + TIE / 10.0)))


def scenarios(member, resolution):
    """All of them, in the order in which ties are decided."""
    found = []
    for bits, fit in fits(member):
        for joints, corner in corners(member):
            concrete = replace(corner, **{name: 0.0 for name, bit in FIT.items() if not bits & bit})
            concrete = known(replace(concrete, **worst_direction(concrete, resolution)))
            found.append(Scenario(Case(concrete, resolution), joints, fit, bits).work_out())
    return found


def lowest_of(found):
    return min(one.ratio for one in found)


def taken(found):
    return next(one for one in found if one.ratio <= lowest_of(found) + TIE)


def odd_size(m):
    return (not 0.25 <= m.od <= 6.0 or not 0.02 <= m.wall <= 0.5 or not m.od / 60.0 <= m.wall <= m.od / 4.0
            or not 3.0 * m.od <= m.length <= 240.0 or max(m.bow, m.miss_a, m.miss_b) > m.length / 20.0)


def remarks(member, governs, built_in):
    """built_in: the states as built with no run load, one a corner."""
    m, case = member, governs.case
    ends = (m.end_a, m.end_b)
    held_joints = (0.0,) if m.end_b == "free" else (0.0, m.length)
    said = {"unstable as loaded": case.unstable(),
            "built-in state takes a set": any(state and state["use"] >= 1.0 for state in built_in),
            "slender": case.slenderness > 150.0,
            "short tube": m.length / m.od < 10.0,
            "thin wall": any(zone.reduction < 1.0 for zone in case.zones.values()),
            "stiff ends": (m.length / case.effective_length)**2 > 2.0 + 1e-9,
            "weld zone taken as 1 in": m.weld_zone is None,
            "no bow given": not m.bow,
            "is the size right?": odd_size(m),
            "no effect: eccentricity": m.eccentricity and ends == ("fixed", "fixed"),
            "no effect: moment_a": m.moment_a and m.end_a == "fixed",
            "no effect: moment_b": m.moment_b and m.end_b == "fixed",
            "no effect: point_load": m.point_load and m.point_at in held_joints,
            "no effect: gap_stiffness": not math.isinf(m.gap_stiffness) and not m.gap,
            "no effect: dressed": m.dressed and not case.weld_zone}
    return "; ".join(text for text, is_so in said.items() if is_so)


def clock_taken(scenario, name):
    return getattr(scenario.case.member, name) if getattr(scenario.case.member, CLOCKS[name]) else None


def most_stressed(built_in):
    """As it stands with no run load; nothing where it buckles at some corner."""
    return None if None in built_in else max(built_in, key=lambda state: state["stress"])


def check(member, resolution):
    """All results of a member by their column names (None is a result that does not exist), and its scenarios."""
    found = scenarios(member, resolution)
    as_built = [one for one in found if one.fit == found[0].fit]
    unforced = [one for one in found if one.kept == 0]
    governs = taken(found)
    case, ratio = governs.case, lowest_of(found)
    built_in, loaded = [one.case.state(0.0) for one in as_built], case.state(1.0)
    nothing = dict.fromkeys(["moment", "moment_at", "use", "stress", "deflection", "clock"])
    fit, peak = most_stressed(built_in) or nothing, loaded or nothing
    section = case.section
    results = {
        "verdict": "holds" if ratio >= 1.0 else "short",
        "margin": ratio - 1.0,
        "governs": governing(case.margins(governs.factors))[0],
        "margin_as_built": lowest_of(as_built) - 1.0,
        "margin_unforced": lowest_of(unforced) - 1.0,
        "margin_best": max(one.ratio for one in as_built) - 1.0,
        "joints_taken": governs.joints,
        "bow_clock_taken [deg]": clock_taken(governs, "bow_clock"),
        "miss_a_clock_taken [deg]": clock_taken(governs, "miss_a_clock"),
        "miss_b_clock_taken [deg]": clock_taken(governs, "miss_b_clock"),
        "fit_taken": governs.fit,
        "yield_factor": governs.factors[0],
        "column_factor": governs.factors[1],
        "interaction_factor": governs.factors[2],
        "area [in^2]": section.area,
        "inertia [in^4]": section.inertia,
        "section_modulus [in^3]": section.modulus,
        "radius [in]": section.radius,
        "weight [lb]": case.weight,
        "wall_reduction": case.reduction,
        "critical_load [lbf]": case.column_critical_load,
        "effective_length [in]": case.effective_length,
        "slenderness": case.slenderness,
        "column_stress [psi]": case.column_stress,
        "column_load [lbf]": case.column_load,
        "fit_axial [lbf]": 0.0 - as_built[0].case.locked_tension,
        "fit_moment [in-lbf]": fit["moment"],
        "fit_stress [psi]": fit["stress"],
        "axial [lbf]": member.compression - case.locked_tension,
        "peak_moment [in-lbf]": peak["moment"],
        "peak_moment_at [in]": peak["moment_at"],
        "peak_stress [psi]": peak["stress"],
        "stress_use": peak["use"],
        "deflection [in]": peak["deflection"],
        "deflection_clock [deg]": peak["clock"],
        "remarks": remarks(member, governs, built_in),
    }
    return results, governs, found
