"""The panelled corset: two to four panels a half, a bone along every seam, laced or zipped down the centre back."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..blocks.armhole import armhole, top_level
from ..blocks.corset_panels import Panel, corset_panels, panel_piece
from ..blocks.cups import head_intake
from ..blocks.panel import modesty_panel
from ..blocks.top_edge import centre_edge, dip_of
from ..body import Body, body_from
from ..corset_figures import LEAST_PANEL, CorsetFigures, corset_figures, refuse_panels
from ..errors import ImpossibleMeasure
from ..layers import Layers
from ..piece import Cut, Mark, Piece
from ..point import Point
from ..quarters import Quarters, quarters_for
from ..report import Warning_
from ..rules import CORSET_RULES, Rules
from ..spec import GarmentSpec
from ..tolerance import INCH, SLANT_WARNED_DEG
from .bustier_gown import NEEDS as TOP_NEEDS
from .bustier_gown import ROLL

NEEDS = (*TOP_NEEDS, "hip")
SLANT_REFUSED_DEG = 45.0
"""A seam that slants more than this lies on the bias and won't hold a bone. Judgement, tried on a prototype."""

EYELETS_APART = 1.0 * INCH
EYELET_INSIDE = 0.375 * INCH
"""Eyelets stand between the two bones of the edge. Common practice, no source."""

BESIDE_ARMHOLE = 1.0 * INCH
_ABOUT_CUPS = ("cup-too-deep", "lower-dart-held", "cup-very-shallow")


@dataclass(frozen=True)
class Corset:
    """All that was drawn, for the reports to read; `lining` and `panel` are None where there is none."""

    spec: GarmentSpec
    body: Body
    rules: Rules
    layers: Layers
    q: Quarters
    fig: CorsetFigures
    outside: tuple[Panel, ...]
    lining: tuple[Panel, ...]
    panel: Piece | None
    gap: float
    slants: dict[str, float]
    warnings: tuple[Warning_, ...]

    def __getitem__(self, name: str) -> Panel:
        return next(panel for panel in self.outside if panel.name == name)


def draw_corset(spec: GarmentSpec) -> Corset:
    """Draw every panel; raises DraftingError where one can't be right."""
    rules = Rules(spec.rules, str(spec.options["fit"]), CORSET_RULES)
    layers = Layers(spec.layers, bool(spec.options["lined"]))
    warnings = rules.check()
    body = body_from(spec.measures, rules, needs=NEEDS)
    q, found = quarters_for(body, rules, wadded=False)
    warnings += [each for each in found if each.code not in _ABOUT_CUPS]
    hole, held = armhole(body, q, half="front")
    hole_back, held_back = armhole(body, q, half="back")
    top, raised = top_level(hole, q, rules)
    kind = str(spec.options["top_edge"])
    head, head_held = head_intake(q, rules, top, kind)
    dip, dip_held = dip_of(kind, rules, top, q.front.bust)
    depth, depth_held = _depth(rules, q)
    warnings += held + held_back + raised + head_held + dip_held + depth_held
    gap = rules["lacing_gap"] if spec.options["closure"] == "back-lacing" else 0.0
    panels = int(spec.options["panels"])
    holes = tuple(each.path.split_at(each.at_level(top))[1] for each in (hole, hole_back))

    def layer(roll: float) -> tuple[CorsetFigures, tuple[Panel, ...]]:
        fig = corset_figures(body, rules, q, panels=panels, top=top, head=head, gap=gap, depth=depth,
                             back_most=holes[1].start.x - BESIDE_ARMHOLE, roll=roll)
        middle = Point(q.bust_point_x - fig.front_seam.top, top + roll)
        return fig, corset_panels(q, fig, centre_edge(kind, top + roll, dip, middle), holes, roll)

    fig, outside = layer(0.0)
    slants = _slants(outside)
    warnings += _check_panels(panels, q, fig, outside, slants)
    lining = layer(ROLL)[1] if layers.lined else ()
    made = modesty_panel(rules, top, q.side.waist + fig.depth, foot="lower edge") if gap else None
    return Corset(spec, body, rules, layers, q, fig, outside, lining, made, gap, slants, tuple(warnings + layers.warnings()))


def _depth(rules: Rules, q: Quarters) -> tuple[float, list[Warning_]]:
    wanted, most = rules["lower_edge"], q.front.hip - q.front.waist
    if wanted <= most:
        return wanted, []
    return most, [Warning_("lower-edge-held", "The lower edge was held to the hip line, {0} below the waist (house rule {1}).", (most, wanted))]


def _check_panels(number: int, q: Quarters, fig: CorsetFigures, panels: tuple[Panel, ...], slants: dict[str, float]) -> list[Warning_]:
    """Return a warning for seams that slant; raises UnknownChoice or ImpossibleMeasure for a panel that is too narrow or a seam
    too steep to sew a bone along."""
    name, worst = max(slants.items(), key=lambda item: item[1])
    if worst > SLANT_REFUSED_DEG:
        if number == 4:
            raise ImpossibleMeasure("waist", 4 * q.waist - q.ease_waist, f"With a waist of {{value}} the {name} would slant {worst:.0f}° from "
                                    "straight down, and no bone lies along that. Measure waist, under bust, hip and the lengths again.")
        raise refuse_panels(number, f"The {name} would slant {worst:.0f}° from straight down, and no bone lies along that.")
    for panel in panels:
        width = panel.narrowest() * (2 if panel.left_name == "fold" else 1)
        if width < LEAST_PANEL:
            if "back" in panel.name and fig.gap and width + fig.gap / (4 if number == 4 else 2) >= LEAST_PANEL:
                raise ImpossibleMeasure("lacing_gap", fig.gap, f"A lacing gap of {{value}} leaves the {panel.title.lower()} panel narrower than "
                                        "{needed}. Take a smaller gap, or fewer panels.", needed=LEAST_PANEL)
            if number == 2:
                raise ImpossibleMeasure("bust_span", 2 * q.bust_point_x, f"The {panel.title.lower()} panel would be narrower than {{needed}}. "
                                        "Measure bust span, bust and waist again.", needed=LEAST_PANEL)
            raise refuse_panels(number, f"The {panel.title.lower()} panel would be narrower than 1½ in, too narrow for its bones.")
    if worst <= SLANT_WARNED_DEG:
        return []
    told = ", ".join(f"{name} {slant:.0f}°" for name, slant in slants.items() if slant > SLANT_WARNED_DEG)
    more = "" if number == 4 else f" {number + 1} panels a half would lie better."
    return [Warning_("steep-slant", f"Slanting far from straight down: {told}. Such a seam stretches when sewn: stay it with tape.{more}")]


def _slants(panels: tuple[Panel, ...]) -> dict[str, float]:
    """Return the greatest slant of each seam that runs down the body and of a dart under the bust, degrees: of one edge, since the
    other is its mirror image."""
    found: dict[str, float] = {}
    for panel in panels:
        for name, line in ((panel.left_name, panel.left), (panel.right_name, panel.right)):
            if name not in ("fold", "centre back", *found):
                found[name] = line.greatest_slant_deg()
        if panel.darts:
            found["dart under the bust"] = panel.darts[1].legs[0].greatest_slant_deg()
    return found


def numbered(corset: Corset) -> tuple[Piece, ...]:
    """Return all pieces with numbers and cloths: the outside, then its lining, which is smaller along the top and over the bust."""
    layers, outside = corset.layers, [panel_piece(panel, corset.rules) for panel in corset.outside]
    if corset.panel:
        outside.append(corset.panel)
    pieces = []
    for number, piece in enumerate(outside, start=1):
        count, panel = piece.pieces_of_a_cloth, piece.name == "modesty panel"
        cuts = [Cut(layers.outside(piece.name), "shell", count)]
        if layers.stayed and not panel:
            cuts.append(Cut(layers.cloths["stay"], "stay", count))
        if layers.lined and panel:
            cuts.append(Cut(layers.cloths.get("lining", "lining"), "lining", count))
        marks = _eyelets(corset, piece) if piece.name == "back" and corset.gap else ()
        pieces.append(replace(piece, number=number, cuts=tuple(cuts), marks=marks, remarks=_remarks(corset, piece)))
    for panel in corset.lining:
        made = panel_piece(panel, corset.rules)
        cut = Cut(layers.cloths.get("lining", "lining"), "lining", made.pieces_of_a_cloth)
        number = next(piece.number for piece in pieces if piece.name == panel.name)
        pieces.append(made.renamed(f"{made.name} lining", f"{made.title} lining", of=made.name, group="lining", number=number, cuts=(cut,),
                                   remarks=("smaller at top and bust: rolls inward",)))
    return tuple(pieces)


def _remarks(corset: Corset, piece: Piece) -> tuple[str, ...]:
    if piece.has_edge("side"):
        return ("let-out at the side",)
    if piece.name == "back":
        return ("eyelets down the centre back",) if corset.gap else ("zip in the centre back",)
    return ()


def _eyelets(corset: Corset, piece: Piece) -> tuple[Mark, ...]:
    """Return eyelets along the centre back, evenly, at most an inch apart, the first and last half of that from the ends."""
    line = piece.edge("centre back").path
    x, top, foot = line.start.x + corset.rules["bone_width"] + EYELET_INSIDE, line.end.y, line.start.y
    count = max(2, int((foot - top) / EYELETS_APART))
    step = (foot - top) / count
    return tuple(Mark("eyelet", Point(x, top + (i + 0.5) * step), Point(x, top + (i + 0.5) * step)) for i in range(count))
