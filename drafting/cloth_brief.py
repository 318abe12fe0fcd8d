"""The cloths of an order file: what each is for, how wide it is and how it may be laid."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from drafting import order_keys as keys
from drafting.order_section import Length, Section, shown

HALF_INCH_MM = Decimal("12.7")
MOST_SHRINK = 0.5


@dataclass(frozen=True, slots=True)
class Motif:
    """A piece on which the print's motif must stand: `at` is where, across from its inner edge and down from its top, sewn.

    Without `at` it stands in the piece's middle; on the fold that is the middle front or back.
    """

    piece: str
    at: tuple[Length, Length] | None = None

    def as_order_file(self) -> dict[str, Any]:
        return {"piece": self.piece} | ({"at": [length.written for length in self.at]} if self.at else {})


@dataclass(frozen=True, slots=True)
class ClothBrief:
    """One cloth; what the file leaves out is None and the default stands in the property beside it."""

    name: str
    used_for: tuple[str, ...]
    width: Length
    on_hand: Length | None = None
    selvedge: Length | None = None
    layout: str | None = None
    one_way: bool = False
    repeat: Length | None = None
    repeat_across: Length | None = None
    match: tuple[str, ...] = ()
    motifs: tuple[Motif, ...] = ()
    first_motif: Length | None = None
    flaws: tuple[tuple[tuple[Length, Length], ...], ...] = ()
    shrink: float | None = None
    price: float | None = None

    @property
    def usable_mm(self) -> float:
        """Width between the selvedges, opened flat."""
        selvedge = self.selvedge.mm if self.selvedge else HALF_INCH_MM
        return float(self.width.mm - 2 * selvedge)

    def as_order_file(self) -> dict[str, Any]:
        file: dict[str, Any] = {"name": self.name, "for": list(self.used_for), "width": self.width.written}
        for key in ("on_hand", "selvedge", "repeat", "repeat_across", "first_motif"):
            length = getattr(self, key)
            if length is not None:
                file[key] = length.written
        for key in ("layout", "shrink", "price"):
            if getattr(self, key) is not None:
                file[key] = getattr(self, key)
        if self.one_way:
            file["one_way"] = True
        if self.match:
            file["match"] = list(self.match)
        if self.motifs:
            file["motifs"] = [motif.as_order_file() for motif in self.motifs]
        if self.flaws:
            file["flaws"] = [[[x.written, y.written] for x, y in outline] for outline in self.flaws]
        return file


def read_cloths(file: Section) -> tuple[ClothBrief, ...]:
    cloths: list[ClothBrief] = []
    for n, value in enumerate(file.items("cloths", "a list of cloths", required=True), 1):
        section = file.inside(f"cloths[{n}]", value, "an object with name, for and width")
        cloth = _cloth(section) if section else None
        if cloth is None or section is None:
            continue
        for earlier in cloths:
            if earlier.name == cloth.name:
                section.note("name", f"{shown(cloth.name)} is the name of an earlier cloth. Give each its own.")
            for use in set(earlier.used_for) & set(cloth.used_for):
                section.note("for", f"“{use}” is already cut from {earlier.name}. Name one cloth for it.")
        cloths.append(cloth)
    return tuple(cloths)


def _cloth(section: Section) -> ClothBrief | None:
    section.only(keys.CLOTH)
    name = section.text("name", "the cloth's name", required=True)
    used_for = _used_for(section)
    width = section.length("width", "the cloth's width", required=True, above_nothing=True)
    selvedge = section.length("selvedge", "a selvedge's width")
    if width and width.mm <= 2 * (selvedge.mm if selvedge else HALF_INCH_MM):
        section.note("width", f"I read {shown(width.written)}: no cloth is left between the selvedges.")
    rest = {
        "on_hand": section.length("on_hand", "the cloth on hand"),
        "layout": section.choice("layout", keys.LAYOUTS),
        "one_way": section.flag("one_way", default=False),
        "repeat": section.length("repeat", "the pattern's repeat along the cloth"),
        "repeat_across": section.length("repeat_across", "the pattern's repeat across the cloth"),
        "match": _match(section),
        "motifs": _motifs(section),
        "first_motif": section.length("first_motif", "how far the first motif stands from the left selvedge"),
        "flaws": _flaws(section),
        "shrink": section.number("shrink", "a share such as 0.03 for 3 in 100", lambda n: 0 <= n <= MOST_SHRINK),
        "price": section.number("price", "a price per yard or metre", lambda n: 0 <= n <= 1_000_000),
    }
    if rest["motifs"] and not (rest["repeat"] or rest["repeat_across"]):
        section.note("motifs", "a motif is to be placed, but no repeat is given. Give repeat or repeat_across, or both.")
    return ClothBrief(name, used_for, width, selvedge=selvedge, **rest) if name and width else None


def _used_for(section: Section) -> tuple[str, ...]:
    listed = ", ".join(keys.CLOTH_FOR)
    uses = section.items("for", f"a list of: {listed}", required=True)
    if section.data.get("for") == []:
        section.note("for", f"an empty list. Name what is cut from it: {listed}.")
    read = []
    for n, use in enumerate(uses, 1):
        if not isinstance(use, str) or use not in keys.CLOTH_FOR:
            section.note(f"for[{n}]", f"I read {shown(use)}. Choices: {listed}.")
        elif use in read:
            section.note(f"for[{n}]", f"“{use}” stands there twice.")
        else:
            read.append(use)
    return tuple(read)


def _match(section: Section) -> tuple[str, ...]:
    names = section.items("match", "a list of piece names")
    read = (
        section.text_of(f"match[{n}]", name, "a piece's name", longest=100) for n, name in enumerate(names, 1)
    )
    return tuple(name for name in read if name)


def _motifs(section: Section) -> tuple[Motif, ...]:
    read: list[Motif] = []
    for n, value in enumerate(section.items("motifs", "a list of pieces on which a motif must stand"), 1):
        motif = section.inside(f"motifs[{n}]", value, "an object with a piece and, where not its middle, at")
        if motif is None:
            continue
        motif.only(keys.MOTIF)
        piece = motif.text("piece", "a piece's name", required=True)
        at = _motif_at(motif) if motif.has("at") else None
        if any(piece == earlier.piece for earlier in read):
            motif.note("piece", f"{shown(piece)} stands there twice. Only one point of a piece is placed.")
        elif piece:
            read.append(Motif(piece, at))
    return tuple(read)


def _motif_at(motif: Section) -> tuple[Length, Length] | None:
    given = motif.data["at"]
    if not isinstance(given, list) or len(given) != 2:
        motif.note("at", f"I read {shown(given)}. Give two lengths: [across from its inner edge, down from its top].")
        return None
    across, down = (motif.length_of("at", value, "a length") for value in given)
    return (across, down) if across and down else None


def _flaws(section: Section) -> tuple[tuple[tuple[Length, Length], ...], ...]:
    outlines = []
    for n, outline in enumerate(section.items("flaws", "a list of outlines"), 1):
        path = f"flaws[{n}]"
        if not isinstance(outline, list) or not 3 <= len(outline) <= 200:
            section.note(path, f"I read {shown(outline)}. Give an outline of three points or more, [[x, y], …].")
            continue
        points = []
        for m, point in enumerate(outline, 1):
            if not isinstance(point, list) or len(point) != 2:
                section.note(f"{path}[{m}]", f"I read {shown(point)}. Give a point as [across, along].")
                continue
            x, y = (section.length_of(f"{path}[{m}]", value, "a length", signed=True) for value in point)
            if x and y:
                points.append((x, y))
        outlines.append(tuple(points))
    return tuple(outlines)
