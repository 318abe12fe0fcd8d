"""One reference body's garments as path text, a file for each kind, so that a change of any piece shows as a diff.

    python -m tests.engine.reference_paths            # write them anew, then read `git diff tests/engine/reference`

The body is ROUND of bodies.py with arms and legs; the choices are each kind's own defaults. Millimetres to a hundredth; M, L
and C as in SVG path data; one line an edge, its name and allowance behind it.
"""

from __future__ import annotations

from pathlib import Path as File

from drafting.engine.curve import Line
from drafting.engine.draft import Draft
from drafting.engine.garments import KINDS, draft
from drafting.engine.path import Path
from drafting.engine.piece import Piece
from drafting.engine.point import Point
from drafting.engine.spec import GarmentSpec
from tests.engine.bodies import ROUND, mm

FOLDER = File(__file__).parent / "reference"
BODY = ROUND | {
    "across_front": 13.75, "across_back": 14.5, "upper_arm": 12.25, "elbow": 10.75, "wrist": 6.25, "sleeve_length": 23,
    "shoulder_to_elbow": 13.5, "knee": 15, "thigh": 24, "waist_to_knee": 23, "height": 65, "body_rise": 10.75, "inside_leg": 29.5,
}  # fmt: skip
LAYERS = {"shell": "brocade", "lining": "lawn", "stay": "fusible", "wadding": "batting"}


def reference(kind: str) -> Draft:
    asked = (*KINDS[kind].measures, *KINDS[kind].optional_measures)
    body = {key: inches for key, inches in BODY.items() if key in asked}
    return draft(GarmentSpec(kind, {}, mm(body), layers=LAYERS))


def text_of(drafted: Draft) -> str:
    return "\n".join(piece_text(piece) for piece in drafted.pieces)


def piece_text(piece: Piece) -> str:
    lines = [f"{piece.name}{', on the fold' if piece.on_fold else ''}{'' if piece.side == 'both' else f', {piece.side}'}"]
    lines += [f"  {path_text(edge.path)}  ; {edge.name}, {number(edge.allowance)}" for edge in piece.edges]
    lines += [f"  notch {notch.edge} {number(notch.at)}" for notch in piece.notches]
    lines += [f"  mark {mark.kind} {place(mark.start)} {place(mark.end)}" for mark in piece.marks]
    return "\n".join(lines) + "\n"


def path_text(path: Path) -> str:
    strokes = (f"L{place(s.end)}" if isinstance(s, Line) else f"C{place(s.out)} {place(s.into)} {place(s.end)}" for s in path.strokes)
    return " ".join([f"M{place(path.start)}", *strokes])


def place(point: Point) -> str:
    return f"{number(point.x)},{number(point.y)}"


def number(figure: float) -> str:
    """To a hundredth of a millimetre, without trailing noughts or a minus before nothing."""
    return f"{round(figure, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.glob("*.txt"):
        old.unlink()
    for kind in KINDS:
        (FOLDER / f"{kind}.txt").write_text(text_of(reference(kind)), "utf-8")
        print(FOLDER / f"{kind}.txt")


if __name__ == "__main__":
    main()
