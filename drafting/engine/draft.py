"""A finished draft: everything that the sheet, the screen and the result file are made from."""

from __future__ import annotations

from dataclasses import dataclass

from .act import Act
from .body import Body, Levels
from .piece import Piece
from .report import Bone, Check, Figure, Girth, LaidOver, Material, Warning_
from .seam import Seam
from .spec import FitNote, GarmentSpec
from .trace import Step


@dataclass(frozen=True)
class Draft:
    """One garment drafted for one body. Lengths in mm; `pieces` in cutting order, layers after the outside.
    `drawn_notes` are the fit notes that are drawn into them."""

    spec: GarmentSpec
    title: str
    summary: str
    body: Body
    levels: Levels
    side_levels: Levels
    rules: dict[str, float]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    girths: tuple[Girth, ...]
    bones: tuple[Bone, ...]
    steps: tuple[Step, ...]
    warnings: tuple[Warning_, ...]
    checks: tuple[Check, ...]
    toile_only: bool
    figures: tuple[Figure, ...] = ()
    materials: tuple[Material, ...] = ()
    making: tuple[Act, ...] = ()
    drawn_notes: tuple[FitNote, ...] = ()
    laid_over: tuple[LaidOver, ...] = ()

    @property
    def failed(self) -> tuple[Check, ...]:
        """The checks that the draft fails; it may be cut only where there is none."""
        return tuple(check for check in self.checks if not check.passed)
