"""The corset's own list of corners and limits, and its worked-out figures."""

from __future__ import annotations

from collections.abc import Iterator

from ..body import estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..piece import Piece
from ..report import Check, Figure, Girth, Warning_
from ..seam import Seam
from ..tolerance import GIRTH
from .corset import Corset
from .corset_seams import lower_ease


def checks_of(corset: Corset, pieces: dict[str, Piece], seams: tuple[Seam, ...], girths: tuple[Girth, ...]) -> tuple[Check, ...]:
    """Return every check of the draft, passed or not."""
    every = pieces.values()
    found = (seam_checks(seams, pieces) + girth_checks(girths) + outline_checks(every) + notch_checks(every) + dart_checks(every)
             + corner_checks(_corners(corset, pieces)))
    for girth in girths:
        if girth.level == "lower edge":
            short = max(0.0, girth.body + min(0.0, lower_ease(corset)) - girth.finished)
            found.append(Check("lower edge passes round the body", short <= GIRTH, short, GIRTH))
    return tuple(found)


def _corners(corset: Corset, pieces: dict[str, Piece]) -> Iterator:
    for suffix in ("", " lining") if corset.lining else ("",):
        said = ", lining" if suffix else ""
        outer, behind = (next(pieces[f"{name}{suffix}"] for name in names if name in pieces) for names in (("side front", "front"), ("side back", "back")))
        foot = [e.name for e in outer.edges if e.name.startswith("lower edge")][0]
        yield f"underarm{said}", ((outer, "armhole", "side"), (behind, "armhole", "side"))
        yield f"lower edge at the side{said}", ((outer, "side", foot), (behind, "side", "lower edge"))
        for name, inner, other in (("front seam", "front", "side front"), ("back seam", "back", "side back")):
            if other in pieces:
                one, two = pieces[f"{inner}{suffix}"], pieces[f"{other}{suffix}"]
                yield f"top edge at the {name}{said}", ((one, "top", name), (two, name, "top"))
                yield f"lower edge at the {name}{said}", ((one, name, "lower edge"), (two, "lower edge", name))
        front = pieces[f"front{suffix}"]
        for number, edge in enumerate(("top", "lower edge") if front.darts else (), start=1):
            yield (f"{edge} over dart {number}{said}", ((front, f"{edge} 1", f"dart {number} a"), (front, f"dart {number} b", f"{edge} 2")))
        yield f"lower edge at the fold{said}", ((front, "lower edge 2" if front.darts else "lower edge", "fold"),)


def figure_warnings(corset: Corset) -> list[Warning_]:
    """Return what the finished figures say to the cutter."""
    return estimate_warnings(corset.body)


def figures_of(corset: Corset) -> tuple[Figure, ...]:
    """Return the worked-out figures that a cutter may want to see: mm, slants in degrees."""
    q, fig = corset.q, corset.fig
    values = [("front longer than back, shoulder to waist", q.d), ("taken out at the bust-point seam's head", 2 * fig.front_seam.top),
              ("bust to under-bust, bust-point seam", 2 * fig.front_seam.under_bust), ("waist, a half", fig.waist_take),
              ("waist, bust-point seam", 2 * (fig.front_seam.waist - fig.front_seam.under_bust)),
              ("waist, side seam", 2 * (fig.side_seam.waist - fig.side_seam.under_bust))]
    if fig.back_seam:
        values += [("bust to under-bust, back seam", 2 * fig.back_seam.under_bust),
                   ("waist, back seam", 2 * (fig.back_seam.waist - fig.back_seam.under_bust))]
    if fig.depth:
        values += [("hip let out, a half", fig.hip_let), ("lower edge below the waist", fig.depth)]
    return (*(Figure(name, value) for name, value in values),
            *(Figure(f"greatest slant, {name}", value, "deg") for name, value in corset.slants.items()))
