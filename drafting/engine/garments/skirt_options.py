"""What can be chosen of a skirt, alike for every garment that has one."""

from __future__ import annotations

from ..spec import Choice, Option

KINDS = (Choice("straight", "straight"), Choice("a-line", "A-line"), Choice("gored", "gored"), Choice("circle", "circle"),
         Choice("gathered", "gathered"), Choice("mermaid", "mermaid"))
NAMES = {choice.value: choice.title for choice in KINDS}
FRACTIONS = (Choice(0.25, "quarter"), Choice(0.5, "half"), Choice(0.75, "three quarters"), Choice(1.0, "full"))
FULLNESS = tuple(Choice(value, f"{value:g} times the waist") for value in (1.5, 1.75, 2.0, 2.25, 2.5, 3.0))
GORES = tuple(Choice(n, f"{n} gores") for n in (4, 6, 8))
PANELS = (Choice(0, "front on the fold, two backs"), *(Choice(n, f"{n} panels") for n in (4, 6, 8)))
GODETS = (Choice(False, "none"), Choice(True, "in every seam"))

WAIST = Option("waist", "Waist", (Choice("straight", "straight"), Choice("basque", "basque, pointed at the centre front")), "straight")
BASQUE_LIMIT = "basque at the centre at most 0.55 of waist to hip, at the side at least 1½ in less"
"""What garments can choose that have a top above their skirt, and its limit in words."""


def skirt_options(*, length: float, none: bool = False) -> tuple[Option, ...]:
    """Return the skirt's options; `length` (mm) from the waist is the default, `none` offers a top without a skirt."""
    kinds = (Choice("none", "none"), *KINDS) if none else KINDS
    return (
        Option("skirt.kind", "Skirt", kinds, "a-line"),
        Option("skirt.fraction", "How much of a circle", FRACTIONS, 0.5, only_with="circle"),
        Option("skirt.panels", "Circle cut as", PANELS, 0, only_with="circle"),
        Option("skirt.fullness", "How full, gathered", FULLNESS, 2.0, only_with="gathered"),
        Option("skirt.gores", "Gores", GORES, 6, only_with="gored mermaid"),
        Option("skirt.godets", "Godets", GODETS, False, only_with="mermaid"),
        Option("skirt.length", "Skirt length from the waist", (), length),
        Option("skirt.sweep", "Hem, all round", (), None, only_with="straight gored mermaid",
               blank="Left blank, the draft works it out; a straight skirt with less than its hips is pegged."),
        Option("skirt.length_side", "Length at the side, where it differs", (), None, blank="Left blank, half-way between front and back."),
        Option("skirt.length_back", "Length at the back, where it differs", (), None, blank="Left blank, as long as the front."),
        Option("skirt.train", "Train, beyond the back", (), None, blank="Left blank, no train."),
    )


def skirt_in_words(options) -> str:
    """Return a skirt's name as the summary has it: half circle skirt, A-line skirt."""
    kind = str(options["skirt.kind"])
    if kind == "none":
        return "no skirt"
    train = " with a train" if options.get("skirt.train") else ""
    if kind == "circle":
        part = next(c.title for c in FRACTIONS if c.value == options["skirt.fraction"])
        panels = options.get("skirt.panels", 0)
        return f"{part}-circle skirt{f' in {panels} panels' if panels else ''}{train}"
    if kind == "gathered":
        return f"skirt gathered to {options['skirt.fullness']:g} times the waist{train}"
    if kind in ("gored", "mermaid"):
        godets = " and godets" if kind == "mermaid" and options.get("skirt.godets") else ""
        return f"{kind} skirt of {options['skirt.gores']} gores{godets}{train}"
    pegged = "pegged " if kind == "straight" and options.get("skirt.sweep") else ""
    return f"{pegged}{NAMES[kind]} skirt{train}"
