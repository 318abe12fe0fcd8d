"""The tables of the job sheet: bones, girths, seams, steps, materials."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from drafting.engine.tolerance import SEAM
from drafting.linework import clean
from workshop.length import INCH, print_cloth, print_length

Fmt = Callable[[float], str]
T = TypeVar("T")
YARD, METRE = 914.4, 1000.0

LEVELS = {"under_bust": "Under-bust"}


@dataclass(frozen=True, slots=True)
class BoneRow:
    place: str
    channel: str
    bone: str
    casing: str
    count: int


@dataclass(frozen=True, slots=True)
class GirthRow:
    level: str
    body: str
    wadding: str
    ease: str
    finished: str


@dataclass(frozen=True, slots=True)
class SeamRow:
    name: str
    pieces: str
    one: str
    other: str
    verdict: str
    meets: bool
    layer: str


@dataclass(frozen=True, slots=True)
class Step:
    number: int
    text: str
    why: str


@dataclass(frozen=True, slots=True)
class StepGroup:
    """The steps of one piece, in two columns that are read one after the other."""

    title: str
    columns: tuple[tuple[Step, ...], ...]


@dataclass(frozen=True, slots=True)
class MaterialRow:
    item: str
    amount: str


def bone_rows(result: Mapping, fmt: Fmt) -> Iterable[BoneRow]:
    """Return one row for each place and length; like bones are counted together."""
    rows: dict[tuple[str, str, str, str], int] = {}
    for bone in result["bones"]:
        place = clean(bone.get("place") or bone["piece"])
        key = (place[:1].upper() + place[1:], fmt(bone["channel"]), fmt(bone["bone"]), fmt(bone["casing"]))
        rows[key] = rows.get(key, 0) + bone["count"]
    return (BoneRow(*key, count) for key, count in rows.items())


def bone_totals(result: Mapping, unit: str) -> str:
    """Return what to buy for the bones, in words; empty where there are none."""
    bones = result["bones"]
    if not bones:
        return ""
    count = sum(bone["count"] for bone in bones)
    bone_mm, casing_mm = (sum(bone[key] * bone["count"] for bone in bones) for key in ("bone", "casing"))
    width = result.get("rules", {}).get("bone_width")
    wide = f" {print_length(width, unit, with_unit=True)} wide" if width else ""
    return (
        f"To buy: bone{wide}, {print_cloth(bone_mm, unit)} in {count} {'length' if count == 1 else 'lengths'};"
        f" casing, {print_cloth(casing_mm, unit)}; {2 * count} tips."
    )


def girth_rows(result: Mapping, fmt: Fmt) -> Iterable[GirthRow]:
    for girth in result["girths"]:
        level = girth["level"]
        yield GirthRow(
            level=LEVELS.get(level, level.replace("_", " ").capitalize()),
            body=fmt(girth["body"]),
            wadding=fmt(girth.get("wadding") or 0),
            ease=fmt(girth["ease"]),
            finished=fmt(girth["finished"]),
        )


def seam_rows(result: Mapping, fmt: Fmt) -> Iterable[SeamRow]:
    """Return both lengths of each seam and what becomes of the difference: none, eased in, or wrong."""
    numbers = {piece["name"]: str(piece.get("number") or piece["name"]) for piece in result["pieces"]}
    for seam in result["seams"]:
        off = seam["length_a"] - seam["length_b"] - seam["ease"]
        meets = abs(off) <= SEAM
        one, other = seam["length_a"], seam["length_b"]
        if meets and abs(seam["ease"]) <= SEAM:
            other = one
        sides = (
            " + ".join(dict.fromkeys(numbers.get(ref["piece"], ref["piece"]) for ref in seam[key])) for key in "ab"
        )
        yield SeamRow(
            name=clean(_named(seam)),
            pieces=clean(" with ".join(sides)),
            one=fmt(one),
            other=fmt(other),
            verdict=_verdict(seam["ease"], off, meets, fmt),
            meets=meets,
            layer=seam.get("layer") or "outside",
        )


def _named(seam: Mapping) -> str:
    """Return the seam's name; in the lining's own table it need not say lining again."""
    name = seam["name"][:1].upper() + seam["name"][1:]
    if seam.get("layer") != "lining":
        return name
    return name if name.endswith(" to lining") else name.removesuffix(" lining")


def seam_groups(rows: tuple[SeamRow, ...]) -> tuple[tuple[str, tuple[SeamRow, ...]], ...]:
    """Return the rows in two tables to stand side by side: the outside cloth, and all within it."""
    outside = tuple(row for row in rows if row.layer == "outside")
    within = tuple(row for row in rows if row.layer != "outside")
    return tuple((words, part) for words, part in (("Outside", outside), ("Lining", within)) if part)


def _verdict(ease: float, off: float, meets: bool, fmt: Fmt) -> str:
    if not meets:
        return f"differs\u00a0{fmt(abs(off))}" if fmt(abs(off)) != "0" else f"differs {abs(off):.1f}\u00a0mm"
    if abs(ease) <= SEAM:
        return "meet"
    return f"eased\u00a0{fmt(abs(ease))}"


def step_groups(result: Mapping) -> Iterable[StepGroup]:
    """Return the steps by piece, in the order in which they are chalked."""
    titles = {piece["name"]: piece.get("title") or piece["name"] for piece in result["pieces"]}
    numbers = {piece["name"]: piece.get("number") for piece in result["pieces"]}
    groups: dict[str, list[Step]] = {}
    for step in result["steps"]:
        groups.setdefault(step["piece"], []).append(
            Step(step["number"], clean(step["text"]), clean(step.get("why") or ""))
        )
    for name, steps in groups.items():
        title = titles.get(name, name[:1].upper() + name[1:])
        yield StepGroup(
            clean(f"{numbers[name]} {title}" if numbers.get(name) else title),
            in_two(steps, lambda step: 60 + len(step.text) + 0.9 * len(step.why)),
        )


def in_two(items: Sequence[T], size: Callable[[T], float]) -> tuple[tuple[T, ...], ...]:
    """Return the items in two runs, in order, as nearly as large as each other."""
    sizes = [size(item) for item in items]
    cut = min(range(1, len(items) + 1), key=lambda at: (max(sum(sizes[:at]), sum(sizes[at:])), -at))
    return tuple(items[:cut]), tuple(items[cut:])


def material_rows(result: Mapping, unit: str) -> Iterable[MaterialRow]:
    """Return what to lay ready: cloth lengths as they are bought, short ones as measured, the rest counted."""
    for material in result["materials"]:
        amount, of, count = material["amount"], material.get("unit") or "", material.get("count") or 1
        if of == "mm":
            long = amount >= (YARD if unit == INCH else METRE)
            text = print_cloth(amount, unit) if long else print_length(amount, unit, with_unit=True)
            text += f" in {count} lengths" if count > 1 else ""
        else:
            of = of.removesuffix("s") if amount == 1 else of
            text = (
                f"{amount:g}"
                + (f" {clean(of)}" if of not in ("", "piece", "pieces") else "")
                + (f", {count} times" if count > 1 else "")
            )
        item = clean(material["item"])
        yield MaterialRow(item[:1].upper() + item[1:], text)
