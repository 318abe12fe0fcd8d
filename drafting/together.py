"""One lay for several orders on one cloth, as for a bridal party or a choir; and what each order's share of it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from shapely.geometry import Polygon

from drafting.cloth_brief import ClothBrief
from drafting.lays import cloths_of, lay_pieces, pieces_from


@dataclass(frozen=True)
class Part:
    """One draft's part in it: `label` tells whose, as S-014; `cloth` is how that order calls the cloth."""

    label: str
    cloth: str
    order_file: Mapping[str, Any]
    result: Mapping[str, Any]


@dataclass(frozen=True)
class Together:
    """The lay, an entry like those of `lays[]`; and the area of cloth that each part's pieces take, mm², by label."""

    lay: dict[str, Any]
    areas: dict[str, float]


def lay_together(parts: Sequence[Part], *, seconds: float, **how: Any) -> Together:
    """Lay all pieces of all parts on one cloth; `how` is that of `plan`. Raises LayError, and ValueError for no parts.

    The cloth is as the first order has it; one way, if it is for any; and it shrinks as much as any says.
    """
    if not parts:
        raise ValueError("There are no orders to lay together.")
    briefs = [_brief(part) for part in parts]
    cloth = replace(
        briefs[0],
        on_hand=None,
        one_way=any(brief.one_way for brief in briefs),
        shrink=max(brief.shrink or 0.0 for brief in briefs),
        width=min((brief.width for brief in briefs), key=lambda width: width.mm),
    )
    pieces = [
        replace(piece, name=name_in(part.label, piece.name))
        for part, brief in zip(parts, briefs, strict=True)
        for piece in pieces_from(brief, part.result)
    ]
    unit = parts[0].order_file["units"]
    lay = lay_pieces(cloth, tuple(pieces), unit, None, seconds=seconds, **how).as_result()
    return Together(lay, areas_of(lay, [part.label for part in parts]))


def _brief(part: Part) -> ClothBrief:
    return next(cloth for cloth in cloths_of(part.order_file) if cloth.name == part.cloth)


def name_in(label: str, piece: str) -> str:
    return f"{piece} of {label}"


def areas_of(lay: Mapping[str, Any], labels: Sequence[str]) -> dict[str, float]:
    """The cloth that each label's pieces cover, both layers counted, mm²."""
    areas = dict.fromkeys(labels, 0.0)
    for placed in lay["placed"]:
        label = placed["piece"].rsplit(" of ", 1)[1]
        areas[label] += Polygon(placed["outline"]).area * placed["layers"]
    return areas


def shares_of(total: int, areas: Mapping[str, float]) -> dict[str, int]:
    """Divide `total` steps of cloth by the areas; the shares add up to it, rounded by the largest remainders."""
    whole = sum(areas.values())
    exact = {label: total * area / whole for label, area in areas.items()}
    shares = {label: int(share) for label, share in exact.items()}
    by_rest = sorted(exact, key=lambda label: (shares[label] - exact[label], label))
    for label in by_rest[: total - sum(shares.values())]:
        shares[label] += 1
    return shares
