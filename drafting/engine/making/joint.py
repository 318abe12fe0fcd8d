"""What is sewn at one go: a seam, or two that run on into each other; and which of two joints must be sewn first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from ..offset import Finish
from ..piece import Edge, Piece
from ..seam import EdgeRef, Seam
from ..act import ACROSS

RUNS_ON = ("side front", "side back", "centre front", "centre back", "front", "back", "centre", "left", "right")
"""“waist, front” and “waist, back” are one seam round the body."""

GATHERED = 1.25
"""A side longer than this many times the other is gathered onto it; less is eased. Judgement."""

EASED = 1.0
"""Less than this many mm is within the seam's own play."""


SIDES = (", left", ", right")
"""A garment whose halves differ says each of its seams and edges twice, with this behind the name."""


def stem(name: str) -> str:
    """Return an edge's plain name: “waist” for “waist 2” and “waist, left”."""
    return name.partition(", ")[0].rstrip(" 0123456789")


def has(piece: Piece, name: str) -> bool:
    """Tell whether a piece has an edge of that plain name."""
    return any(stem(edge.name) == name for edge in piece.edges)


def first(piece: Piece, name: str) -> Edge:
    """Return the piece's first edge of that plain name; raises StopIteration where it has none."""
    return next(edge for edge in piece.edges if stem(edge.name) == name)


def half_of(seam: Seam) -> str:
    """Return which part of a longer seam this one is: “front”, “back left”; "" for a whole one."""
    name, side = without_side(seam.name)
    rest = name.partition(", ")[2]
    part = next((word for word in RUNS_ON if rest.startswith(word)), "")
    return f"{part} {side}".strip()


def without_side(name: str) -> tuple[str, str]:
    """Return a seam's name without its side, and the side."""
    return next(((name.removesuffix(end), end[2:]) for end in SIDES if name.endswith(end)), (name, ""))


def is_lining(piece: Piece) -> bool:
    """Tell whether a piece is cut as lining only."""
    return piece.of is not None or piece.group == "lining"


def layer_of(seam: Seam, piece: Piece) -> str:
    """Return the layer of the garment in which `seam` takes `piece`: a band may be cut both outside and as lining."""
    if is_lining(piece):
        return "lining"
    if piece.group == "facing":
        return "facing"
    if seam.layer != "outside" and any(cut.role == seam.layer for cut in piece.cuts):
        return seam.layer
    return "outside"


@dataclass(frozen=True)
class Joint:
    """Seams sewn at one go, on the pieces of a draft."""

    name: str
    seams: tuple[Seam, ...]
    pieces: Mapping[str, Piece]

    @cached_property
    def a(self) -> tuple[EdgeRef, ...]:
        return tuple(dict.fromkeys(ref for seam in self.seams for ref in seam.a))

    @cached_property
    def b(self) -> tuple[EdgeRef, ...]:
        return tuple(dict.fromkeys(ref for seam in self.seams for ref in seam.b))

    @cached_property
    def refs(self) -> tuple[EdgeRef, ...]:
        return tuple(dict.fromkeys((*self.a, *self.b)))

    @cached_property
    def layers(self) -> frozenset[str]:
        return frozenset(layer_of(seam, self.pieces[name]) for seam in self.seams for name, _ in (*seam.a, *seam.b))

    @property
    def layer(self) -> str:
        """Where it is sewn; "between" where it joins one layer to another."""
        return next(iter(self.layers)) if len(self.layers) == 1 else "between"

    @cached_property
    def piece_names(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for name, _ in self.refs))

    @cached_property
    def groups(self) -> frozenset[str]:
        return frozenset(self.group_of(name) for name in self.piece_names)

    def group_of(self, name: str) -> str:
        """Return the part of the garment that a piece belongs to; a lining's is that of the piece it lines."""
        piece = self.pieces[name]
        return self.pieces[piece.of].group if piece.of in self.pieces else piece.group

    @property
    def is_dart(self) -> bool:
        return len(self.piece_names) == 1 and all(edge.startswith("dart ") for _, edge in self.refs)

    @property
    def is_mirrored(self) -> bool:
        """True where a piece is sewn to its own mirror image, as at a centre front."""
        return set(self.a) == set(self.b)

    @property
    def joins_groups(self) -> bool:
        return len(self.groups) > 1

    @cached_property
    def lengths(self) -> tuple[tuple[float, float], ...]:
        """Both sides of each seam, mm."""
        return tuple(seam.lengths(self.pieces) for seam in self.seams)

    @property
    def let_out(self) -> float:
        """What can be let out along it, mm; 0 for a plain seam."""
        edges = [self.pieces[name].edge(edge) for name, edge in self.refs]
        return min((e.allowance for e in edges if e.finish is Finish.LET_OUT), default=0.0)

    @property
    def gathers(self) -> bool:
        return any(max(pair) > GATHERED * min(pair) > 0 for pair in self.lengths)

    @property
    def longer(self) -> tuple[EdgeRef, ...]:
        """The side that is longer, and is eased or gathered onto the other."""
        return self.a if sum(x - y for x, y in self.lengths) >= 0 else self.b

    @property
    def crosses_centre(self) -> bool:
        """True where the seam runs over the fold of a piece: it is one seam, else there is one on each side."""
        return self.name != "godets" and any(touches_fold(self.pieces[name], edge) for name, edge in self.refs)


def touches_fold(piece: Piece, edge: str) -> bool:
    """Tell whether an edge ends at the fold of its piece."""
    if not piece.on_fold:
        return False
    names = [each.name for each in piece.edges]
    at = names.index(edge)
    return "fold" in (names[at - 1], names[(at + 1) % len(names)])


def is_band(joint: Joint) -> bool:
    """Tell whether the joint sews a band round the body: one strip, cut once, that is folded over its own inner edge."""
    return any(has(joint.pieces[name], "inner edge") and sum(cut.count for cut in joint.pieces[name].cuts[:1]) == 1 for name in joint.piece_names)


def named(joint: Joint) -> str:
    """Return the joint's name as it stands in a sentence: “cup seam”, “side seam of the top”."""
    base, _, rest = joint.name.replace(" lining", "").partition(", ")
    base = base.split(" to lining")[0]
    base = base if base.endswith(("seam", "seams", "band", "godets")) else f"{base} seam"
    return f"{base} of the {rest}" if rest and not rest.startswith(("front", "back")) else base


def joints_of(pieces: Iterable[Piece], seams: Iterable[Seam]) -> list[Joint]:
    """Return what is sewn, darts included, in the order of the seams."""
    by_name = {piece.name: piece for piece in pieces}
    runs: dict[tuple, list[Seam]] = {}
    for seam in seams:
        name, _ = without_side(seam.name)
        base, _, rest = name.partition(", ")
        runs_on = bool(rest) and not base.startswith("dart ") and rest.startswith(RUNS_ON)
        ending = rest.split(" ", 1)[1] if runs_on and " " in rest else ""
        name = seam.name if base.startswith("dart ") else name
        key = (base, seam.layer, ending) if runs_on else ("godets", seam.layer) if "godet" in base else (name, seam.layer)
        runs.setdefault(key, []).append(seam)
    return [Joint(key[0] if len(found) > 1 else found[0].name, tuple(found), by_name) for key, found in runs.items()]


@dataclass(frozen=True, slots=True)
class Ring:
    """For each edge of a piece, the edges before and after it; a dart between them is stepped over and named."""

    beside: Mapping[str, tuple[str, ...]]
    darts: Mapping[str, tuple[str, ...]]

    @classmethod
    def of(cls, piece: Piece) -> Ring:
        names = [edge.name for edge in piece.edges]
        beside: dict[str, tuple[str, ...]] = {}
        darts: dict[str, tuple[str, ...]] = {}
        for i, name in enumerate(names):
            found, crossed = [], []
            for step in (-1, 1):
                j = (i + step) % len(names)
                while names[j].startswith("dart ") and j != i:
                    crossed.append(names[j])
                    j = (j + step) % len(names)
                found.append(names[j])
            beside[name], darts[name] = tuple(found), tuple(crossed)
        return cls(beside, darts)


def first_before(joints: Iterable[Joint]) -> Iterator[tuple[Joint, Joint, str]]:
    """Yield (first, then, why) for every two joints of one layer that meet in a corner and can be sewn in one order only."""
    found = list(joints)
    rings = {name: Ring.of(joint.pieces[name]) for name, joint in {n: joint for joint in found for n in joint.piece_names}.items()}
    at: dict[EdgeRef, list[Joint]] = {}
    for joint in found:
        for ref in joint.refs:
            at.setdefault(ref, []).append(joint)
    for then in found:
        seen = set()
        for name, edge in then.refs:
            ring = rings[name]
            legs = ring.darts[edge] if not then.is_dart else ()
            for beside in (*ring.beside[edge], *legs):
                for first in at.get((name, beside), ()):
                    if first is then or first.name in seen or first.layers.isdisjoint(then.layers):
                        continue
                    if why := _why_first(first, then, rings):
                        seen.add(first.name)
                        yield first, then, why


def _why_first(first: Joint, then: Joint, rings: Mapping[str, Ring]) -> str:
    if then.is_dart:
        return ""
    if first.is_dart:
        return "the darts end in it" if first.refs[0] in _dart_refs(then, rings) else ""
    across = f"{ACROSS}{named(first)}"
    if then.layer == "between" and first.layer != "between":
        return across
    if _carries_across(first, then.a, rings) or _carries_across(first, then.b, rings):
        return across
    if first.is_mirrored:
        return across if then.joins_groups and not first.joins_groups or is_band(then) else ""
    if then.is_mirrored and not first.joins_groups and not is_band(first):
        return across
    if then.joins_groups and not first.joins_groups:
        return f"the {named(first)} is sewn while its part lies flat"
    return ""


def _dart_refs(then: Joint, rings: Mapping[str, Ring]) -> set[EdgeRef]:
    return {(name, leg) for name, edge in then.refs for leg in rings[name].darts[edge]}


def _carries_across(first: Joint, side: tuple[EdgeRef, ...], rings: Mapping[str, Ring]) -> bool:
    """Tell whether a seam along `side` runs over the end of `first`: both edges beside it, on the two pieces, are in `side`."""
    if first.is_mirrored:
        return False
    touched = set(side)

    def meets(refs: tuple[EdgeRef, ...]) -> bool:
        return any((name, beside) in touched for name, edge in refs for beside in rings[name].beside[edge])

    return meets(first.a) and meets(first.b)
