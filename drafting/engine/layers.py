"""Which cloth each part is cut from: the order's cloths by role, with the outside cloth for whatever none names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .piece import Cut, Piece
from .report import Warning_

PARTS = {
    "centre cup": ("cup", "bodice", "shell"), "middle cup": ("cup", "bodice", "shell"), "side cup": ("cup", "bodice", "shell"),
    "band": ("band", "bodice", "shell"), "side band": ("band", "bodice", "shell"),
    "yoke": ("yoke", "bodice", "shell"), "back": ("back", "bodice", "shell"), "modesty panel": ("back", "bodice", "shell"),
    "strap": ("yoke", "bodice", "shell"),
    "front": ("bodice", "shell"), "side front": ("bodice", "shell"), "side back": ("back", "bodice", "shell"), "sleeve": ("sleeve", "bodice", "shell"),
    "sleeve band": ("sleeve", "bodice", "shell"),
    "slit facing": ("bodice", "shell"), "front neck facing": ("bodice", "shell"), "back neck facing": ("bodice", "shell"), "front facing": ("bodice", "shell"),
    "collar stand": ("bodice", "shell"), "flat collar": ("bodice", "shell"), "under stand": ("bodice", "shell"),
    "under collar": ("bodice", "shell"),
    "skirt front": ("skirt", "shell"), "skirt back": ("skirt", "shell"),
    "skirt side front": ("skirt", "shell"), "skirt side back": ("skirt", "shell"), "godet": ("skirt", "shell"),
    "trousers front": ("shell",), "trousers back": ("shell",), "waistband": ("skirt", "shell"),
    "fly facing": ("shell",), "fly shield": ("shell",),
}
"""For each outside piece, the roles in the order in which a cloth is looked for."""

STAYED = ("centre cup", "middle cup", "side cup", "band", "side band")
PADDED = ("centre cup", "middle cup", "side cup")


@dataclass(frozen=True, slots=True)
class Layers:
    """Cloth names by role, and whether the garment is lined."""

    cloths: Mapping[str, str]
    lined: bool

    @property
    def wadded(self) -> bool:
        return "wadding" in self.cloths

    @property
    def stayed(self) -> bool:
        return "stay" in self.cloths

    def outside(self, piece: str) -> str:
        """Return the cloth of an outside piece; "outside cloth" where the order names none."""
        for role in PARTS[piece]:
            if role in self.cloths:
                return self.cloths[role]
        return "outside cloth"

    def cuts_outside(self, piece: str, count: int) -> tuple[Cut, ...]:
        """Return what is cut to an outside piece's own line: the cloth, its stay, its wadding."""
        cuts = [Cut(self.outside(piece), "shell", count)]
        if piece in STAYED and self.stayed:
            cuts.append(Cut(self.cloths["stay"], "stay", count))
        if piece in PADDED and self.wadded:
            cuts.append(Cut(self.cloths["wadding"], "wadding", count, plain=True))
        return tuple(cuts)

    def cuts_lining(self, piece: str, count: int) -> tuple[Cut, ...]:
        """Return what is cut to a lining piece's line: the lining and its stay."""
        cuts = [Cut(self.cloths.get("lining", "lining"), "lining", count)]
        if piece in STAYED and self.stayed:
            cuts.append(Cut(self.cloths["stay"], "stay", count))
        return tuple(cuts)

    def lining_of(self, piece: Piece, outside: Iterable[Piece], remarks: tuple[str, ...] = ("darts laid as tucks",)) -> Piece:
        """Return `piece` as the lining of the outside piece of its name: named for it, under its number, cut from the lining."""
        number = next(whole.number for whole in outside if whole.name == piece.name)
        return piece.renamed(f"{piece.name} lining", f"{piece.title} lining", of=piece.name, group="lining", number=number,
                             cuts=self.cuts_lining(piece.name, piece.pieces_of_a_cloth), remarks=remarks)

    def warnings(self) -> list[Warning_]:
        """Return which layers have no cloth."""
        found = []
        if "shell" not in self.cloths and not {"bodice", "skirt"} <= self.cloths.keys():
            missing = [p for p in PARTS if self.outside(p) == "outside cloth" and p in ("centre cup", "band", "back", "skirt front")]
            if missing:
                found.append(Warning_("no-cloth", f"No cloth is named for {', '.join(missing)}: the cut list says "
                                      "“outside cloth”."))
        if self.lined and "lining" not in self.cloths:
            found.append(Warning_("no-lining-cloth", "The garment is lined, but no lining is among the order's cloths."))
        if not self.stayed:
            found.append(Warning_("no-stay", "No stay is among the order's cloths: cups and band are cut without one."))
        return found
