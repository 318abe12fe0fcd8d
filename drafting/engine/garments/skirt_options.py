"""What can be chosen of a skirt, alike for every garment that has one."""

from __future__ import annotations

from ..spec import Choice, Option

KINDS = (Choice("straight", "straight"), Choice("a-line", "A-line"), Choice("circle", "circle"), Choice("gathered", "gathered"))
NAMES = {choice.value: choice.title for choice in KINDS}
FRACTIONS = (Choice(0.25, "quarter"), Choice(0.5, "half"), Choice(0.75, "three quarters"), Choice(1.0, "full"))
FULLNESS = tuple(Choice(value, f"{value:g} times the waist") for value in (1.5, 1.75, 2.0, 2.25, 2.5, 3.0))


def skirt_options(*, length: float, none: bool = False) -> tuple[Option, ...]:
    """Return the skirt's options; `length` (mm) from the waist is the default, `none` offers a top without a skirt."""
    kinds = (Choice("none", "none"), *KINDS) if none else KINDS
    return (
        Option("skirt.kind", "Skirt", kinds, "a-line"),
        Option("skirt.fraction", "How much of a circle", FRACTIONS, 0.5, only_with="circle"),
        Option("skirt.fullness", "How full, gathered", FULLNESS, 2.0, only_with="gathered"),
        Option("skirt.length", "Skirt length from the waist", (), length),
    )


def skirt_in_words(options) -> str:
    """Return a skirt's name as the summary has it: half circle skirt, A-line skirt."""
    kind = str(options["skirt.kind"])
    if kind == "circle":
        part = next(c.title for c in FRACTIONS if c.value == options["skirt.fraction"])
        return f"{part}-circle skirt"
    if kind == "gathered":
        return f"skirt gathered to {options['skirt.fullness']:g} times the waist"
    return f"{NAMES[kind]} skirt" if kind != "none" else "no skirt"
