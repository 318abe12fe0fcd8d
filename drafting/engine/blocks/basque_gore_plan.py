"""How much gores below a basque flare, so that they clear the hips and come to the hem that was asked for.

Source of the limits: the drafting method, section 8 (Gores, Basque); the rest is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable

from ..errors import ImpossibleMeasure, UnknownChoice
from ..tolerance import TOUCHING
from .basque_skirt import Traced, back_path, front_path
from .skirt_gores import MOST_FLARE, USUAL_FLARE
from .spread import mean_depth

MOST_LEAN = 0.35
"""A seam comes in by at most this share of its way from the hip to the edge: it then slants 28 degrees there. Judgement."""

USUAL_LEAN = 0.2
"""A skirt whose hem was not asked for flares until its seams come in by no more than this, 17 degrees at the edge. Judgement."""


def plan_hung_gores(gores: int, hip: float, traced: Traced, length: float, sweep: float | None, *, step: float = 0.0) -> float:
    """Return the flare at each seam side (radians) of a gored skirt `length` mm long from the waist; `hip` is a quarter's, `sweep` the
    hem all round that was asked for (None: the usual flare, or as much as makes the hem `step` mm).

    Raises ImpossibleMeasure for a hem that no flare gives, UnknownChoice where gores would have to flare too much over the hips.
    """
    room, spare, sides = room_below(gores, hip, traced)
    run = length - traced.to_hip

    def hem(flare: float) -> float:
        return 2 * (2 * hip + max(0.0, flare * room - spare)) + 2 * gores * flare * run

    least, usual = (max(0.0, (spare - lean * sides) / room) for lean in (MOST_LEAN, USUAL_LEAN))
    if least > MOST_FLARE:
        raise UnknownChoice("waist", "basque", ("straight",), why="Below a basque these gores would have to flare more than cloth can fall.")
    if sweep is None:
        return max(min(usual, MOST_FLARE), USUAL_FLARE, _flare_of(min(step, hem(MOST_FLARE)), hem))
    if sweep < hem(least) - TOUCHING:
        raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} all round is too narrow: below a basque these gores need {needed} to clear the hips.",
                                needed=hem(least))
    if sweep > hem(MOST_FLARE):
        raise ImpossibleMeasure("skirt.sweep", sweep, f"{gores} gores flare to at most {{needed}} round the hem; {{value}} was asked for. Choose more "
                                "gores, or part of a circle.", needed=hem(MOST_FLARE))
    return max(least, _flare_of(sweep, hem))


def _flare_of(sweep: float, hem: Callable[[float], float]) -> float:
    """Return the flare that gives a hem; it grows with the flare, in two straight stretches."""
    low, high = 0.0, MOST_FLARE
    if sweep <= hem(low):
        return low
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if hem(middle) < sweep else (low, middle)
    return high


def check_close(gores: int, hip: float, traced: Traced) -> None:
    """Raise UnknownChoice where seams that run straight down at the hip, as a mermaid's, would come in too fast above it."""
    _, spare, sides = room_below(gores, hip, traced)
    if spare > MOST_LEAN * sides:
        raise UnknownChoice("waist", "basque", ("straight",), why="Below a basque the seams of this skirt would have to come in too fast from the hips.")


def room_below(gores: int, hip: float, traced: Traced) -> tuple[float, float, float]:
    """Return how much half a skirt widens for each radian of flare, by how much its hip is wider than the edge reaches, and the
    depths of all seam edges that may come in, together; mm."""
    halves, room, across, sides = gores // 2, 0.0, 0.0, 0.0
    for path in (front_path(traced, 0.0), back_path(traced, 0.0)):
        across += path.end.x
        room += halves * (traced.to_hip - mean_depth(path, 0.0))
        sides += traced.to_hip - traced.side + (traced.to_hip - path.start.y if gores == 4 else 0.0)
        for place in seam_places(gores):
            sides += 2 * (traced.to_hip - path.at(path.distance_where(lambda p, at=place * path.end.x: p.x - at)).y)
    return room, 2 * hip - across, sides


def seam_places(gores: int) -> tuple[float, ...]:
    """Return where seams part a half between its centre and its side, as shares of the way across."""
    return {4: (), 6: (1 / 3,), 8: (1 / 2,)}[gores]
