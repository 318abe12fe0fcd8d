"""From cloth, pieces and a way to fold: the single things to place, each with the ways it may lie."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import Polygon

from ..tolerance import LAY_EXACT_WIDTH, LAY_SIMPLIFIED
from .cloth import FOLDED, OPEN, LayCloth, LayPiece
from .errors import BadPiece, TooWide, Unlayable
from .flaws import flaws_lying
from .outline import Points
from .shapes import BOTH, TOP, UNDER, Shape, chains_of, parts_of, turned
from .wholes import Whole, clean_rings, taken_up

MOST_FINE = 160
"""With more different outlines than this their convex hulls are laid, so that the tables stay small."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way that a thing may lie: the number of its shape, how it is turned, mirrored, and on which layers."""

    shape: int
    turned: float
    mirrored: bool
    layers: int


@dataclass(frozen=True, slots=True)
class Thing:
    """One outline to place. `gives` finished pieces come of it; `rows` are the steps across that each way may take."""

    piece: str
    ways: tuple[Way, ...]
    rows: tuple[tuple[int, int, int], ...]
    gives: int
    on_fold: bool
    matched: bool
    doubled: bool


@dataclass(frozen=True, slots=True, eq=False)
class Task:
    """All that a search needs to know. `across` is the lay's own width; `barred` are shapes that lie fast at (0, 0).

    `opened` are pieces cut singly that only the cloth opened out is wide enough for: they want a zone of their own.
    """

    layout: str
    across: float
    step: float
    shapes: tuple[Shape, ...]
    things: tuple[Thing, ...]
    barred: tuple[int, ...]
    flaws: tuple[tuple[Points, int], ...]
    repeat: float
    phases: tuple[float, ...]
    layers: int
    cloth: LayCloth
    opened: tuple[Whole, ...] = ()

    @property
    def has_match(self) -> bool:
        return any(thing.matched for thing in self.things) or any(whole.matched for whole in self.opened)

    def opened_task(self, start: float, phase: float) -> Task:
        """Return the task of laying what is `opened` on the cloth opened out from `start` on, the print as it runs on."""
        flaws = tuple(tuple((x, y - start) for x, y in flaw) for flaw in self.cloth.flaws)
        cloth = replace(self.cloth, layout=OPEN, flaws=flaws, first_motif=self.cloth.motif_from(self.layout, opened=True))
        task = _task(
            [replace(whole, layers=TOP, mirrors=whole.mirrors) for whole in self.opened], cloth, OPEN, rough=False
        )
        return replace(task, phases=(phase,)) if self.repeat else task


def task_for(
    cloth: LayCloth, pieces: tuple[LayPiece, ...], layout: str, rings: Mapping[str, Points] | None = None
) -> Task:
    """Return the task of laying `pieces` by `layout`; raises BadPiece, TooWide, TooMany, TooFine.

    `rings` are the pieces' outlines by name where `clean_rings` has read them before.
    """
    rings = clean_rings(pieces) if rings is None else rings
    wholes = [whole for piece in pieces for whole in taken_up(piece, layout, rings[piece.name])]
    return _task(wholes, cloth, layout, rough=len(pieces) > MOST_FINE)


def _task(wholes: list[Whole], cloth: LayCloth, layout: str, *, rough: bool) -> Task:
    across = cloth.across(layout)
    repeat_across = cloth.repeat_across if any(whole.matched for whole in wholes) else 0.0
    step = _step(across, [np.ptp(whole.ring[:, 0]) for whole in wholes], repeat_across)
    maker = _Maker(cloth, layout, across, step, rough=rough)
    things, opened, too_wide = [], [], []
    for whole in wholes:
        try:
            things.append(maker.thing(whole))
        except TooWide as narrow:
            if layout != FOLDED or whole.layers != TOP or narrow.needs > cloth.usable + LAY_EXACT_WIDTH:
                too_wide.append(narrow)
            opened.append(whole)
    if too_wide:
        raise max(too_wide, key=lambda narrow: narrow.cloth_width)
    flaws = tuple(flaws_lying(cloth, layout))
    barred = tuple(maker.barred(ring, layers) for ring, layers in flaws)
    return Task(
        layout=layout,
        across=across,
        step=step,
        shapes=tuple(maker.shapes),
        things=tuple(things),
        barred=barred,
        flaws=flaws,
        repeat=cloth.repeat if any(whole.matched for whole in wholes) else 0.0,
        phases=maker.phases(tuple(things)),
        layers=1 if layout == OPEN else 2,
        cloth=cloth,
        opened=tuple(opened),
    )


def _step(across: float, widths: list[float], repeat_across: float) -> float:
    """Return the step across: fine for few pieces, and such that the pieces' widths are nearly whole steps of it."""
    many = len(widths)
    target = 400 if many <= 30 else 280 if many <= 70 else 180 if many <= 200 else 110
    if repeat_across:
        return repeat_across / max(round(repeat_across * target / across), 1)
    counts = np.arange(round(target * 0.8), round(target * 1.2) + 1)
    steps = across / counts
    over = np.array(widths)[None, :] / steps[:, None]
    lost = (np.ceil(over - 1e-6) - over).sum(axis=1) * steps
    return float(steps[np.argmin(lost + steps * many * 0.1)])


class _Maker:
    """Makes shapes once for each different outline, turn and layer."""

    def __init__(self, cloth: LayCloth, layout: str, across: float, step: float, *, rough: bool):
        self.cloth, self.layout, self.across, self.step, self.rough = cloth, layout, across, step, rough
        self.first = cloth.motif_from(layout)
        self.tolerance = min(LAY_SIMPLIFIED, across * 0.0005)
        self.shapes: list[Shape] = []
        self._numbers: dict[tuple, int] = {}
        self._parts: dict[tuple, list[Points]] = {}
        self._bases: dict[tuple, int] = {}
        self._things: dict[tuple, Thing] = {}

    def thing(self, whole: Whole) -> Thing:
        key = (id(whole.piece), whole.mirrors, whole.layers, whole.on_fold)
        if key not in self._things:
            self._things[key] = self._thing(whole)
        return self._things[key]

    def _thing(self, whole: Whole) -> Thing:
        piece = whole.piece
        ways: dict[tuple[int, int], Way] = {}
        widths: list[float] = []
        masks = (TOP, UNDER) if whole.layers == TOP and self.layout != OPEN else (whole.layers,)
        for turn in self._turns(piece, whole.on_fold):
            for mirrored in whole.mirrors:
                for layers in masks:
                    # The under layer lies face down: a single of the same hand is laid on it mirrored.
                    flipped = mirrored != (layers == UNDER)
                    number = self._number(whole, turn, flipped, layers)
                    shape = self.shapes[number]
                    widths.append(shape.wide)
                    if shape.wide <= self.across + LAY_EXACT_WIDTH:
                        ways.setdefault((number, layers), Way(number, turn, flipped, layers))
        if not ways:
            raise TooWide(
                piece.name,
                needs=min(widths),
                usable=self.across,
                folded=self.layout == FOLDED,
                selvedges=2 * self.cloth.selvedge,
                on_fold=whole.on_fold,
            )
        rows = {way: self._rows(self.shapes[way.shape], whole.on_fold, piece.match) for way in ways.values()}
        fit = tuple(way for way, (first, end, _) in rows.items() if first < end)
        if not fit:
            raise Unlayable(piece.name)
        return Thing(
            piece.name,
            fit,
            tuple(rows[way] for way in fit),
            whole.gives,
            whole.on_fold,
            piece.match,
            self.layout != OPEN and (whole.layers == BOTH),
        )

    def _turns(self, piece: LayPiece, on_fold: bool) -> list[float]:
        turns = [turn % 360 for turn in piece.turns]
        if on_fold:
            turns = [turn for turn in turns if turn in (0, 180)]
            if not turns:
                raise BadPiece(
                    piece.name, "turns", "on the fold it lies at 0 or 180 only. Allow one of them, or lay it open."
                )
        if self.cloth.one_way:
            turns = [turn for turn in turns if turn != 180]
            if not turns:
                raise BadPiece(
                    piece.name, "turns", "it may lie at 180 only, which a one-way cloth does not allow. Allow 0."
                )
        return turns[:1] if piece.match else list(dict.fromkeys(turns))

    def _number(self, whole: Whole, turn: float, mirrored: bool, layers: int) -> int:
        if whole.on_fold and turn == 180:
            mirrored = True  # turned about its fold, the right half is its own mirror image lengthwise
        base, first_turn, first_mirrored, flip = self._unflipped(whole, turn, mirrored)
        parts = self._parts_of(whole)
        ref = self._reference(whole, turned(whole.ring, first_turn, first_mirrored), first_turn, first_mirrored) * flip
        ring = turned(whole.ring, turn, mirrored) - ref
        # Two ways that give the same outline are one; but where it must lie on the fold or the print, its place counts too.
        key = (layers, whole.on_fold, *_canonical(ring if whole.on_fold or whole.matched else ring - ring.min(axis=0)))
        if key not in self._numbers:
            self._numbers[key] = len(self.shapes)
            parts = [turned(part, turn, mirrored) - ref for part in parts]
            self.shapes.append(_shape(ring, parts, layers, base, flip))
        return self._numbers[key]

    def _unflipped(self, whole: Whole, turn: float, mirrored: bool) -> tuple[int, float, bool, tuple[int, int]]:
        """Return (number, turn, mirrored, flip): of which outline this way is a flip, and which flip, about the cloth's axes."""
        flip = (1, 1)
        if not (whole.matched and self.cloth.repeat_across):
            if turn % 360 >= 180:
                turn, flip = turn - 180, (-1, -1)
            if mirrored and turn in (0, 90):
                across = -1 if turn == 0 else 1
                mirrored, flip = False, (across * flip[0], -across * flip[1])
        key = (id(whole.piece), whole.on_fold, turn, mirrored)
        return self._bases.setdefault(key, len(self._bases)), turn, mirrored, flip

    def _parts_of(self, whole: Whole) -> list[Points]:
        key = (id(whole.piece), whole.on_fold)
        if key not in self._parts:
            self._parts[key] = parts_of(whole.ring, gap=self.cloth.gap, tolerance=self.tolerance, rough=self.rough)
        return self._parts[key]

    def _reference(self, whole: Whole, ring: Points, turn: float, mirrored: bool) -> Points:
        low = ring.min(axis=0)
        if not whole.piece.match:
            return np.array([0.0, low[1]]) if whole.on_fold else low
        motif = turned(np.array([whole.piece.motif or (0.0, 0.0)]), turn, mirrored)[0]
        return np.array(
            [
                0.0 if whole.on_fold else motif[0] - self.first if self.cloth.repeat_across else low[0],
                motif[1] if self.cloth.repeat else low[1],
            ]
        )

    def _rows(self, shape: Shape, on_fold: bool, matched: bool) -> tuple[int, int, int]:
        if on_fold:
            return 0, 1, 1
        each = round(self.cloth.repeat_across / self.step) if matched and self.cloth.repeat_across else 1
        first = int(np.ceil((-shape.left - LAY_EXACT_WIDTH * 0.1) / self.step))
        last = int(np.floor((self.across + LAY_EXACT_WIDTH - shape.right) / self.step))
        first = -(-first // each) * each
        return first, max(last + 1, first) if last >= first else first, each

    def barred(self, ring: Points, layers: int) -> int:
        parts = parts_of(ring, gap=self.cloth.gap, tolerance=self.tolerance, rough=False)
        base = self._bases.setdefault(("flaw", len(self.shapes)), len(self._bases))
        self.shapes.append(_shape(ring, parts, layers, base, (1, 1)))
        return len(self.shapes) - 1

    def phases(self, things: tuple[Thing, ...]) -> tuple[float, ...]:
        """Where along the cloth the print may start: at 0 where it is known, else wherever a matched piece lies flush."""
        if not self.cloth.repeat or self.cloth.print_start_known:
            return (0.0,)
        lows = {
            round(-self.shapes[way.shape].low % self.cloth.repeat, 3)
            for thing in things
            if thing.matched
            for way in thing.ways
        }
        return tuple(sorted(lows)) or (0.0,)


def _shape(ring: Points, parts: list[Points], layers: int, base: int, flip: tuple[int, int]) -> Shape:
    (left, low), (right, high) = ring.min(axis=0).tolist(), ring.max(axis=0).tolist()
    return Shape(ring, chains_of(parts), layers, left, right, low, high, Polygon(ring).area, base, flip)


def _canonical(ring: Points) -> tuple:
    rounded = np.round(ring, 4) + 0.0
    start = np.lexsort((rounded[:, 1], rounded[:, 0]))[0]
    return tuple(np.roll(rounded, -start, axis=0).ravel().tolist())
