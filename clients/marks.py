"""What is drawn on a photograph of a fitting: rings, arrows and lines, kept as data beside it.

Places are thousandths of the photograph's width, across and down, whole numbers: the photograph itself is never changed.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from math import atan2, cos, hypot, radians, sin

RING, ARROW, LINE = "ring", "arrow", "line"
MOST_MARKS = 40
#: Of one line; a finger that goes on for longer is writing, and for that there is the note.
MOST_POINTS = 200
#: A ring put on a square of the grid, small and large.
SMALL, LARGE = 45, 110
#: The grid by which a mark is put without drawing: ten squares across, and as many down.
SQUARES = 10
COLUMNS = "ABCDEFGHIJ"
ARROW_LENGTH = 170
HEAD, HEAD_ANGLE = 34, radians(28)

PLACED = (
    ("small", "a ring"), ("large", "a large ring"), ("left", "an arrow from the left"), ("right", "an arrow from the right"),
    ("above", "an arrow from above"), ("below", "an arrow from below"),
)  # fmt: skip
FROM = {"left": (-1, 0), "right": (1, 0), "above": (0, -1), "below": (0, 1)}


class UnreadableMarks(ValueError):
    """What came is nothing that can be drawn; str() says what to do."""

    def __init__(self, said: str = "I can't read what was drawn. Draw it once more."):
        super().__init__(said)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A mark as the page draws it: a circle, or strokes as path data."""

    kind: str
    cx: int = 0
    cy: int = 0
    r: int = 0
    d: str = ""


def read(text: str, high: int) -> list[dict]:
    """The marks that a page's script sends, each checked. `high` is the photograph's height. Raises UnreadableMarks."""
    try:
        sent = json.loads(text or "[]")
    except (ValueError, RecursionError):
        raise UnreadableMarks from None
    if not isinstance(sent, list):
        raise UnreadableMarks
    return [_mark(each, high) for each in sent]


def _mark(sent, high: int) -> dict:
    if not isinstance(sent, dict) or sent.get("kind") not in (RING, ARROW, LINE) or not isinstance(sent.get("at"), list):
        raise UnreadableMarks
    kind, at = sent["kind"], [_point(each, high) for each in sent["at"][:MOST_POINTS]]
    if len(at) < 2 or (kind != LINE and len(at) != 2):
        raise UnreadableMarks
    return {"kind": kind, "at": at}


def _point(sent, high: int) -> list[int]:
    """Inside the photograph, whatever the finger did at its edge."""
    fits = isinstance(sent, list) and len(sent) == 2 and all(type(each) in (int, float) and abs(each) < 1e6 for each in sent)
    if not fits:
        raise UnreadableMarks
    return [min(max(round(sent[0]), 0), 1000), min(max(round(sent[1]), 0), high)]


def placed(what: str, column: str, row: str, high: int) -> dict:
    """A mark on a square of the grid: "small", "D", "4". KeyError or ValueError for what is not on the form."""
    x = round((COLUMNS.index(column) + 0.5) * 1000 / SQUARES)
    y = round((range(1, SQUARES + 1).index(int(row)) + 0.5) * high / SQUARES)
    if what in ("small", "large"):
        return {"kind": RING, "at": [[x, y], [x + (SMALL if what == "small" else LARGE), y]]}
    across, down = FROM[what]
    return {"kind": ARROW, "at": [_point([x + across * ARROW_LENGTH, y + down * ARROW_LENGTH], high), [x, y]]}


def joined(kept: list[dict], more: list[dict]) -> list[dict]:
    """All that is kept and what is new; the same thing sent twice stands once. UnreadableMarks for too many."""
    marks = kept + [each for each in more if each not in kept]
    if len(marks) > MOST_MARKS:
        raise UnreadableMarks(f"A photograph takes {MOST_MARKS} marks. Take some out, or add another note with its own photograph.")
    return marks


def drawn(mark: dict) -> Drawn:
    first, last = mark["at"][0], mark["at"][-1]
    if mark["kind"] == RING:
        return Drawn(RING, *first, max(round(hypot(last[0] - first[0], last[1] - first[1])), 8))
    strokes = [mark["at"]]
    if mark["kind"] == ARROW:
        back = atan2(first[1] - last[1], first[0] - last[0])
        ends = [[round(last[0] + HEAD * cos(back + turn)), round(last[1] + HEAD * sin(back + turn))] for turn in (HEAD_ANGLE, -HEAD_ANGLE)]
        strokes.append([ends[0], last, ends[1]])
    return Drawn(mark["kind"], d=" ".join("M" + "L".join(f"{x} {y}" for x, y in stroke) for stroke in strokes))


def said(mark: dict, high: int) -> str:
    """“a ring at D4”: for those who don't see it."""
    x, y = mark["at"][0 if mark["kind"] == RING else -1]
    column = COLUMNS[min(x * SQUARES // 1000, SQUARES - 1)]
    row = min(y * SQUARES // max(high, 1), SQUARES - 1) + 1
    words = {RING: "a ring at", ARROW: "an arrow to", LINE: "a line to"}
    return f"{words[mark['kind']]} {column}{row}"
