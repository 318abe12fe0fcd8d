"""The blouse: a bodice to the hip, open in front; its collars, buttons and facings; then invariants over many bodies."""

import itertools

import pytest
from shapely import LineString, Polygon

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.collar import depth_of, flat_collar, stand_collar
from drafting.engine.blocks.neck import Shoulder, round_neck
from drafting.engine.errors import DraftingError, ImpossibleMeasure, MissingMeasure, UnknownChoice
from drafting.engine.garments import KINDS
from drafting.engine.point import Point
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import ROUND, mm, some_bodies

ARM = {"upper_arm": 11.5, "wrist": 6.25, "elbow": 10, "sleeve_length": 23, "shoulder_to_elbow": 13.5, "across_front": 13.4, "across_back": 14.2}


def blouse(body=None, *, rules=None, length=None, layers=None, **options):
    chosen = options | ({"length": length * INCH} if length else {})
    return draft(GarmentSpec("blouse", chosen, mm(body or {**ROUND, **ARM}), rules or {}, layers or {"shell": "linen", "stay": "fusible"}))


def piece(drafted, name):
    return next(p for p in drafted.pieces if p.name == name)


def figures(drafted):
    return {f.name: f.value for f in drafted.figures}


def marks(drafted, name, kind):
    return [m for m in piece(drafted, name).marks if m.kind == kind]


def test_girths_are_the_body_s_with_the_ease_of_the_fit():
    """Ease at bust, waist, hip: standard 2, 1, 2; body 40, 30, 42."""
    girths = {g.level: g.finished / INCH for g in blouse().girths}
    assert girths == pytest.approx({"bust": 42, "waist": 31, "hip": 44}, abs=0.001)


@pytest.mark.parametrize(("fit", "waist"), [("close", 30.5), ("standard", 31), ("loose", 33)])
def test_the_waist_is_measured_between_its_darts(fit, waist):
    """On the piece itself: the width at the waist less what the darts take, from the centre line."""
    drafted = blouse(fit=fit)
    front, back = piece(drafted, "front"), piece(drafted, "back")
    half = 0.0
    for made, level in ((front, drafted.levels.waist), (back, drafted.side_levels.waist)):
        net = Polygon([(p.x, p.y) for p in made.net])
        half += LineString([(0, level), (1000, level)]).intersection(net).length
        legs = [m for m in made.marks if m.kind == "dart"]
        half -= sum(legs[i + 1].start.x - legs[i].start.x for i in range(0, len(legs), 4))
    assert 2 * half / INCH == pytest.approx(waist, abs=0.05)


def test_front_and_back_go_out_alike_below_the_waist():
    drafted = blouse(length=10)
    front, back = piece(drafted, "front"), piece(drafted, "back")
    fore, aft = front.edge("side 2").path.strokes[-2:], back.edge("side").path.strokes[-2:]
    for one, other in zip(fore, aft, strict=True):
        assert (one.end - one.start).is_at(other.end - other.start, 1e-6)


def test_it_ends_at_the_hip_unless_a_length_is_asked_for():
    assert figures(blouse())["length from the waist"] == pytest.approx(8 * INCH)
    longer = blouse(length=11)
    hem = piece(longer, "back").edge("hem").path
    assert hem.end.y - longer.side_levels.waist == pytest.approx(11 * INCH)
    assert longer.failed == ()


def test_a_blouse_that_would_end_above_the_hip_is_refused_with_what_it_needs():
    with pytest.raises(ImpossibleMeasure) as refused:
        blouse(length=6)
    assert refused.value.needed == pytest.approx(8 * INCH)


def test_a_hip_smaller_than_the_waist_is_drafted_by_the_waist():
    drafted = blouse({**ROUND, **ARM, "waist": 38.5, "hip": 36.5, "under_bust": 37})
    assert "hip-drafted-by-waist" in {w.code for w in drafted.warnings}
    girths = {g.level: g for g in drafted.girths}
    assert girths["hip"].finished == pytest.approx(39.5 * INCH, abs=0.1)
    assert drafted.failed == ()


def test_a_wide_waist_dart_is_shared_between_two():
    drafted = blouse(fit="close", **{"sleeve.kind": "short"})
    legs = marks(drafted, "back", "dart")
    widths = [legs[i + 1].start.x - legs[i].start.x for i in range(0, len(legs), 4)]
    assert len(widths) == 2
    assert max(widths) <= 1.75 * INCH
    assert sum(widths) == pytest.approx(figures(drafted)["back waist darts"])


@pytest.mark.parametrize("length", [8, 12])
@pytest.mark.parametrize("collar", ["none", "stand", "flat"])
def test_buttons_stand_evenly_with_one_at_the_bust_point_s_level(collar, length):
    drafted = blouse(collar=collar, length=length)
    levels = [m.start.y for m in marks(drafted, "front", "button")]
    bust = drafted.levels.bust
    assert min(abs(level - bust) for level in levels) < 1e-6
    above = [b - a for a, b in itertools.pairwise(levels) if b <= bust + 1e-6]
    below = [b - a for a, b in itertools.pairwise(levels) if a >= bust - 1e-6]
    for gaps in (above, below):
        assert max(gaps) - min(gaps) < 1e-6 and max(gaps) <= 3 * INCH + 1e-6
    assert drafted.levels.waist + length * INCH - levels[-1] == pytest.approx(3.5 * INCH)


def test_buttonholes_pass_the_button_and_start_beyond_the_centre():
    """Common practice, no source: an eighth beyond the centre line; as long as the button and its thickness."""
    drafted = blouse(rules={"button": 0.75 * INCH})
    for hole in marks(drafted, "front", "buttonhole"):
        assert hole.start.x == pytest.approx(-INCH / 8)
        assert hole.start.distance(hole.end) == pytest.approx(0.875 * INCH)
    assert figures(drafted)["button stand beyond the centre"] == pytest.approx(0.625 * INCH)


@pytest.mark.parametrize("facing", ["cut-on", "separate"])
def test_the_button_stand_lies_beyond_the_centre_in_front(facing):
    front = piece(blouse(facing=facing), "front")
    edge = front.edge("neck lap").path.start.x
    assert edge == pytest.approx(-0.5 * INCH)
    assert (min(p.x for p in front.net) == pytest.approx(edge)) is (facing == "separate")


def test_a_cut_on_facing_folds_back_onto_the_front_line_for_line():
    front = piece(blouse(), "front")
    fold = -0.5 * INCH
    neck, mirrored = front.edge("neck").path.polyline(), front.edge("facing neck").path.polyline()
    for one, other in zip(neck, reversed(mirrored), strict=True):
        assert other.is_at(Point(2 * fold - one.x, one.y), 1e-9)


@pytest.mark.parametrize("collar", ["stand", "flat"])
@pytest.mark.parametrize("bust", [32, 40, 52])
def test_a_collar_is_as_long_as_the_neckline_measures(collar, bust):
    body = {**ROUND, **ARM, "bust": bust, "under_bust": bust - 5, "waist": bust - 9, "hip": bust + 2, "neck": bust / 4 + 5.5, "upper_arm": bust / 4 + 2.2}
    drafted = blouse(body, collar=collar)
    pieces = {p.name: p for p in drafted.pieces}
    for name in ("collar to the neck", "under collar to the neck", "collar"):
        assert abs(next(s for s in drafted.seams if s.name == name).difference(pieces)) <= SEAM
    made = piece(drafted, {"stand": "collar stand", "flat": "flat collar"}[collar])
    half = made.edge("neck").path.length() - (0.5 * INCH if collar == "stand" else 0)
    assert 2 * half == pytest.approx(figures(drafted)["finished neckline"], abs=SEAM)


def test_a_stand_leans_toward_the_neck():
    made = stand_collar(75, 140, 13, 32)
    assert made.neck.length() == pytest.approx(228)
    assert made.outer.length() + 0.6 * 0.4 * 32 < made.neck.length()
    assert made.neck.end.y == pytest.approx(-0.75 * INCH, rel=0.02)


def test_a_flat_collar_s_neck_edge_is_one_even_curve_as_long_as_the_neckline():
    """Back and front laid shoulder on shoulder: it stays beside the traced line, and no stretch of it is straight."""
    made = flat_collar(*(blouse_neck(part) for part in ("back", "front")), Point(190, 45), 60)
    assert made.neck.length() == pytest.approx(blouse_neck("back").length() + blouse_neck("front").length(), abs=1e-6)
    turns = [made.neck.direction_at(made.centre * (i + 1) / 12).angle_deg - made.neck.direction_at(made.centre * i / 12).angle_deg for i in range(12)]
    assert all(-25 < turn < -3 for turn in turns), turns
    assert made.solved < 0.6 * INCH


def blouse_neck(half):
    """A neckline 70 wide: 19 deep behind, 90 in front, square to a shoulder that falls by 20 degrees."""
    seam = Shoulder(Point(70, 0), Point(190, 45))
    return round_neck({"back": 19, "front": 90}[half], seam.neck, seam.square)


def test_a_collar_s_depth_is_held_to_what_its_kind_can_be():
    assert depth_of("stand", None)[0] == pytest.approx(1.25 * INCH)
    depth, warnings = depth_of("stand", 3 * INCH)
    assert depth == pytest.approx(2 * INCH)
    assert [w.code for w in warnings] == ["collar-depth-held"]


@pytest.mark.parametrize("neckline", ["v", "square", "boat"])
def test_a_collar_on_another_neckline_is_refused_with_what_would_do(neckline):
    with pytest.raises(UnknownChoice) as refused:
        blouse(collar="stand", neckline=neckline)
    assert "round neckline" in refused.value.sentence(str)


@pytest.mark.parametrize(("option", "value"), [("darts", "princess-shoulder"), ("closure", "back-zip"), ("lined", True), ("skirt.kind", "a-line"), ("fit", "corset")])
def test_what_a_blouse_has_not_is_refused_by_name(option, value):
    with pytest.raises(UnknownChoice) as refused:
        blouse(**{option: value})
    assert refused.value.key == option
    assert "Choose" in refused.value.sentence(str)


def test_it_asks_for_the_hip_and_for_no_arm_without_a_sleeve():
    bare = {key: value for key, value in ROUND.items() if key != "hip"}
    with pytest.raises(MissingMeasure) as refused:
        blouse(bare)
    assert refused.value.keys == ("hip",)
    assert blouse(dict(ROUND)).failed == ()


@pytest.mark.parametrize(("collar", "facing", "stayed"), [
    ("stand", "separate", {"collar stand", "front facing"}), ("flat", "cut-on", {"flat collar", "back neck facing"}), ("none", "separate", {"front facing", "back neck facing"})])
def test_collar_and_facings_are_stayed(collar, facing, stayed):
    drafted = blouse(collar=collar, facing=facing)
    assert {p.name for p in drafted.pieces if any(c.role == "stay" for c in p.cuts)} == stayed
    told = blouse(collar=collar, layers={"shell": "linen"})
    assert any("collar, facings" in w.text for w in told.warnings if w.code == "no-stay")


def test_buttons_are_counted_with_the_stand_s_own():
    plain, stand = blouse(), blouse(collar="stand")
    count = {m.item: m.amount for m in plain.materials}["buttons, front"]
    assert count == len(marks(plain, "front", "button"))
    assert {m.item: m.amount for m in stand.materials}["buttons, front"] == len(marks(stand, "front", "button")) + 1


def test_every_step_is_told_in_figures_and_every_piece_has_one():
    drafted = blouse(collar="flat", facing="separate", **{"sleeve.kind": "fitted"})
    written = [step.written(lambda mm: f"{mm / INCH:.3f}") for step in drafted.steps]
    assert all("{" not in text + why for text, why in written)
    named = {p.name for p in drafted.pieces}
    assert {step.piece for step in drafted.steps} == named - {"under collar"}


def test_its_choices_are_listed_with_their_limits():
    kind = KINDS["blouse"]
    assert {"collar", "facing", "length", "sleeve.kind"} <= {option.key for option in kind.options}
    assert {"button", "button_stand", "collar_depth"} <= {rule.key for rule in kind.rules}
    assert kind.limits


SLEEVES = ("none", "set-in", "fitted", "short", "puff", "bell", "flutter", "cap")
CHOICES = tuple(itertools.product(("none", "stand", "flat"), ("cut-on", "separate"), ("side", "shoulder"), SLEEVES))


@pytest.mark.parametrize("part", range(4))
def test_every_invariant_holds_or_the_draft_refuses_over_all_choices(part):
    """All 96 pairings of collar, facing, darts and sleeve, each on a body of its own; necklines and fits in turn."""
    drawn, chosen = 0, CHOICES[part::4]
    for i, (body, (collar, facing, darts, sleeve)) in enumerate(zip(some_bodies(len(chosen), seed=1893 + part), chosen, strict=True)):
        body = {**body, "elbow": 0.88 * body["upper_arm"], "shoulder_to_elbow": 13.5}
        neckline = "round" if collar != "none" else ("round", "v", "square", "boat")[i % 4]
        try:
            drafted = blouse(body, collar=collar, facing=facing, darts=darts, neckline=neckline, fit=("close", "standard", "loose")[i % 3], length=8 + i % 5,
                             **{"sleeve.kind": sleeve})
        except DraftingError as refused:
            assert refused.sentence(lambda length: f"{length:.0f} mm").endswith(".")
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
    assert drawn >= 0.85 * len(chosen)
