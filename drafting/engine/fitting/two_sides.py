"""Two halves drafted apart, put together as one garment: left and right as worn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..checks import dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..draft import Draft
from ..piece import Notch, Piece
from ..point import Point
from ..report import Bone, Check, Girth, LaidOver, Stretch
from ..seam import EdgeRef, Seam
from ..tolerance import SEAM
from .mirror import FREE_GIVES, HAIR, flipped, is_turned, mirrored, opened, way_up
from .telling import steps_of, warnings_of

LEFT, RIGHT = "left", "right"
SAME = 0.01
"""Two halves that nowhere differ by more than this (mm) are cut as one pair."""


@dataclass(frozen=True)
class Half:
    """Where a piece of one half's draft went: the joined piece's name, and its edges' new names."""

    name: str
    edges: Mapping[str, str]


def joined(mean: Draft, right: Draft, left: Draft) -> Draft:
    """Return one draft of two halves; `mean`, drafted from the figures between them, gives what goes whole round the body.

    Pieces that are alike stay a pair or on the fold. The others are cut one by one: a pair becomes a right and a left piece, a
    piece on the fold one opened-out piece with its middle marked, each drawn as it lies on the cloth.
    """
    put = _Put(mean, right, left)
    pieces = put.pieces()
    by_name = {piece.name: piece for piece in pieces}
    seams = tuple(put.seams())
    levels = [{girth.level: girth for girth in draft.girths} for draft in (right, left, mean)]
    girths = tuple(put.girth(levels[2].get(level, g), g, levels[1][level]) for level, g in levels[0].items() if level in levels[1])
    checks = (*seam_checks(seams, by_name), *girth_checks(girths), *outline_checks(pieces), *notch_checks(pieces), *dart_checks(pieces),
              *_middle_checks(right, left), *_corners(right, RIGHT), *_corners(left, LEFT))
    return replace(
        mean, pieces=pieces, seams=seams, girths=girths, bones=tuple(put.bones()), checks=checks, laid_over=_laid(right, left),
        steps=tuple(steps_of(right, left, put.home)), warnings=tuple(warnings_of(mean, right, left)),
    )


class _Put:
    """Puts pieces, seams, girths, bones and steps of two halves together."""

    def __init__(self, mean: Draft, right: Draft, left: Draft):
        self.mean, self.right, self.left = mean, right, left
        self.of = {RIGHT: {}, LEFT: {}}
        self.lengths: dict[tuple[str, str, str], float] = {}
        self.whole: set[str] = set()
        self.apart: set[str] = set()

    def pieces(self) -> tuple[Piece, ...]:
        """Return all pieces, numbered anew; remembers where each went. A piece that one half alone has stays on its side."""
        halves = {side: {p.name: p for p in draft.pieces} for side, draft in ((RIGHT, self.right), (LEFT, self.left))}
        means = {p.name: p for p in self.mean.pieces}
        made: list[Piece] = []
        for name in dict.fromkeys((*halves[RIGHT], *halves[LEFT])):
            right, left = halves[RIGHT].get(name), halves[LEFT].get(name)
            made += self._put(right, left, means.get(name)) if right and left else self._alone(name, right, left)
        numbers: dict[str, int] = {}
        for piece in made:
            if piece.of is None:
                numbers[piece.name] = len(numbers) + 1
        return tuple(replace(piece, number=numbers[piece.of or piece.name], notches=self._notches(piece)) for piece in made)

    def _alone(self, name: str, right: Piece | None, left: Piece | None) -> list[Piece]:
        side = RIGHT if right else LEFT
        self._apart(name, **{side: right or left})
        return [self._one_side(right or left, side)]

    def _apart(self, name: str, **halves: Piece) -> None:
        self.apart.add(name)
        self.lengths.update({(side, name, e.name): e.path.length() for side, half in halves.items() for e in half.edges})

    def _one_side(self, piece: Piece, side: str) -> Piece:
        """Return one side's piece as it is cut."""
        turned = mirrored(piece) if is_turned(piece.name, side) else None
        self.of[side][piece.name] = Half(f"{side} {piece.name}", turned.names if turned else {e.name: e.name for e in piece.edges})
        return replace(
            turned.piece if turned else piece, name=f"{side} {piece.name}", title=f"{side.capitalize()} {piece.title[0].lower()}{piece.title[1:]}",
            side=side, cuts=tuple(replace(cut, count=max(1, cut.count // 2)) for cut in piece.cuts), of=self._of(piece, side),
            remarks=(*piece.remarks, f"the wearer's {side}", *way_up(piece)))

    def _put(self, right: Piece, left: Piece, mean: Piece | None) -> list[Piece]:
        name = right.name
        if not right.on_fold and all(cut.count == 1 for cut in right.cuts):
            self.whole.add(name)
            return [mean or right]
        if _alike(right, left) or right.repeats > 1:  # godets lie nowhere across the centre: all are cut alike
            same = {e.name: e.name for e in right.edges}
            self.of[RIGHT][name] = self.of[LEFT][name] = Half(name, same)
            return [replace(right, of=self._of(right, RIGHT))]
        self._apart(name, right=right, left=left)
        if right.on_fold:
            halves = ((LEFT, left), (RIGHT, right)) if is_turned(name, RIGHT) else ((RIGHT, right), (LEFT, left))
            made, names = opened(*halves)
            self.of[RIGHT][name], self.of[LEFT][name] = Half(name, names[RIGHT]), Half(name, names[LEFT])
            return [replace(made, of=self._of(right, RIGHT), remarks=(*made.remarks, "left and right differ", *way_up(made)))]
        return [self._one_side(right, RIGHT), self._one_side(left, LEFT)]

    def _of(self, piece: Piece, side: str) -> str | None:
        return self.of[side][piece.of].name if piece.of in self.of[side] else piece.of

    def _notches(self, piece: Piece) -> tuple[Notch, ...]:
        """Return a piece's notches with the mates that they have now. What is alike left and right, but meets something that is
        not, has two mates for one notch: it is said once for each."""
        found: list[Notch] = []
        lefts = next((p.notches for p in self.left.pieces if p.name == piece.name), ())
        for i, notch in enumerate(piece.notches):
            sides = (LEFT,) if self._is_left(piece, notch.edge) else (RIGHT,)
            if piece.name not in self.homes and notch.mate and notch.mate[0] in self.apart:
                sides = (RIGHT, LEFT)
                theirs = lefts[i] if i < len(lefts) and lefts[i].edge == notch.edge else notch
                found += [replace(notch, mate=self._mate(one, side)) for one, side in ((notch, RIGHT), (theirs, LEFT))]
                continue
            found += [replace(notch, mate=self._mate(notch, side)) for side in sides]
        return tuple(found)

    @property
    def homes(self) -> set[str]:
        """Names that pieces have now which were one and are apart."""
        return {self.of[side][name].name for name in self.apart for side in (RIGHT, LEFT) if name in self.of[side]}

    def _is_left(self, piece: Piece, edge: str) -> bool:
        halves = (self.of[LEFT][name] for name in self.apart if name in self.of[LEFT])
        return any(half.name == piece.name and edge in half.edges.values() for half in halves)

    def _mate(self, notch: Notch, side: str) -> tuple[str, str, float] | None:
        if notch.mate is None:
            return None
        piece, edge, at = notch.mate
        if piece in self.whole:
            return notch.mate if side == RIGHT else None
        half = self.of[side][piece]
        if piece in self.apart and is_turned(piece, side):
            at = self.lengths[side, piece, edge] - at
        return half.name, half.edges[edge], at

    def ref(self, ref: EdgeRef, side: str) -> EdgeRef:
        """Return where an edge of one half's draft is now."""
        piece, edge = ref
        half = self.of[side].get(piece)
        return (half.name, half.edges[edge]) if half else ref

    def seams(self):
        """Yield each seam once where both sides are one, else once for each side."""
        lefts = {seam.name: seam for seam in self.left.seams}
        means = {seam.name: seam for seam in self.mean.seams}
        for seam in self.right.seams:
            other = lefts.pop(seam.name, None)
            if any(piece in self.whole for piece, _ in (*seam.a, *seam.b)):
                mean = means.get(seam.name, seam)
                yield replace(mean, a=self._both(mean.a, seam.a, (other or seam).a), b=self._both(mean.b, seam.b, (other or seam).b))
                continue
            right, left = self._moved(seam, RIGHT), self._moved(other, LEFT)
            if left and (right.a, right.b) == (left.a, left.b):
                yield right
                continue
            yield replace(right, name=f"{right.name}, {RIGHT}")
            if left:
                yield replace(left, name=f"{left.name}, {LEFT}")
        for seam in lefts.values():
            yield replace(self._moved(seam, LEFT), name=f"{seam.name}, {LEFT}")

    def _moved(self, seam: Seam | None, side: str) -> Seam | None:
        """Return a half's seam with its edges where they are now."""
        return replace(seam, a=tuple(self.ref(r, side) for r in seam.a), b=tuple(self.ref(r, side) for r in seam.b)) if seam else None

    def _both(self, mean: tuple[EdgeRef, ...], right: tuple[EdgeRef, ...], left: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
        """Return the edges of a seam that goes whole round: of pieces that are whole as the mean has them, else of the right half
        and, what stands there twice, of the left one too."""
        found = [ref for ref in mean if ref[0] in self.whole]
        found += [self.ref(ref, RIGHT) for ref in dict.fromkeys(right) if ref[0] not in self.whole]
        found += [self.ref(ref, LEFT) for ref in dict.fromkeys(left) if ref[0] not in self.whole and left.count(ref) > 1]
        return tuple(found)

    def girth(self, mean: Girth, right: Girth, left: Girth) -> Girth:
        """Return a girth whose stretches lie half on the right and half on the left; those that meet in the middle are one."""
        found = [s for s in mean.stretches if s.piece in self.whole]
        found += [s for s in right.stretches if s.piece not in self.whole and s.piece not in self.apart]
        rights = [self._half(s, RIGHT) for s in right.stretches if s.piece in self.apart]
        for stretch in (self._half(s, LEFT) for s in left.stretches if s.piece in self.apart):
            meets = next((r for r in rights if r.piece == stretch.piece and _on_middle(r) and _on_middle(stretch)), None)
            if meets:
                rights[rights.index(meets)] = replace(meets, line=(*reversed(_outward(stretch.line)), *_outward(meets.line)[1:]))
            else:
                rights.append(stretch)
        return replace(mean, ease=(right.ease + left.ease) / 2, stretches=(*found, *rights))

    def _half(self, stretch: Stretch, side: str) -> Stretch:
        line = tuple(flipped(p) for p in stretch.line) if is_turned(stretch.piece, side) else stretch.line
        return replace(stretch, piece=self.of[side][stretch.piece].name, count=max(1, stretch.count // 2), line=line)

    def bones(self):
        """Yield the bones; a pair on pieces that differ becomes one right and one left."""
        lefts = {(bone.place, bone.piece): bone for bone in self.left.bones}
        for right in self.right.bones:
            left = lefts.pop((right.place, right.piece), None)
            if not {right.piece, *right.pieces} & self.apart:
                yield right
            elif right.count == 1:
                yield self._bone(right, RIGHT, right.place, 1)
            else:
                yield from (self._bone(bone, side, f"{bone.place}, {side}", bone.count // 2)
                            for side, bone in ((RIGHT, right), (LEFT, left)) if bone)
        yield from (self._bone(bone, LEFT, f"{bone.place}, {LEFT}", max(1, bone.count // 2)) for bone in lefts.values())

    def _bone(self, bone: Bone, side: str, place: str, count: int) -> Bone:
        start, end = (flipped(bone.start), flipped(bone.end)) if is_turned(bone.piece, side) else (bone.start, bone.end)
        return replace(bone, place=place, piece=self.home(bone.piece, side), pieces=tuple(self.home(p, side) for p in bone.pieces),
                       start=start, end=end, count=count)

    def home(self, piece: str, side: str) -> str:
        """Return what a piece of one half's draft is called now."""
        return self.of[side][piece].name if piece in self.of[side] else piece


def _laid(right: Draft, left: Draft) -> tuple[LaidOver, ...]:
    """Return each half's caps over its armholes; once where they are alike."""
    if all(_near(a.cap, b.cap) and _near(a.armhole, b.armhole) for a, b in zip(right.laid_over, left.laid_over, strict=True)):
        return right.laid_over
    return tuple(replace(one, name=f"{one.name}, {side}") for side, draft in ((RIGHT, right), (LEFT, left)) for one in draft.laid_over)


def _near(line: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    return len(line) == len(other) and all(p.distance(q) <= SAME for p, q in zip(line, other, strict=True))


def _on_middle(stretch: Stretch) -> bool:
    return min(abs(stretch.line[0].x), abs(stretch.line[-1].x)) <= SAME


def _outward(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return a stretch walked away from the middle."""
    return line if abs(line[0].x) <= abs(line[-1].x) else tuple(reversed(line))


def _alike(right: Piece, left: Piece) -> bool:
    return _near(right.net, left.net) and _near(right.cut_line, left.cut_line)


def _middle_checks(right: Draft, left: Draft):
    """Yield whether both halves agree at the middle: the fold's ends, and the length of the centre back."""
    lefts = {piece.name: piece for piece in left.pieces}
    for piece in right.pieces:
        other = lefts.get(piece.name)
        for name in ("fold", "centre back", "centre front"):
            if other and piece.repeats == 1 and piece.has_edge(name) and other.has_edge(name):
                a, b = piece.edge(name).path, other.edge(name).path
                miss = max(a.start.distance(b.start), a.end.distance(b.end)) if name == "fold" else abs(a.length() - b.length())
                limit = FREE_GIVES if piece.group == "facing" else HAIR if name == "fold" else SEAM
                yield Check(f"middle: {piece.name}, {name}", miss <= limit, miss, limit)


def _corners(draft: Draft, side: str):
    for check in draft.checks:
        if check.name.startswith("corner"):
            yield replace(check, name=f"{check.name}, {side}")
