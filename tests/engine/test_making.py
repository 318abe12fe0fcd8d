"""The order of making of every kind with every choice, sewn in thought: nothing is used before it exists.

What must come first is common practice, no source. It is asked of the draft's own edges here, not of the rules that sorted the list.
"""

import functools
import itertools
from collections.abc import Callable
from functools import cache

import pytest

from drafting.engine.act import Act, After, in_order
from drafting.engine.draft import Draft
from drafting.engine.errors import DraftingError
from drafting.engine.garments import KINDS, draft
from drafting.engine.spec import FitNote, GarmentSpec
from tests.engine.bodies import ROUND, inches, mm

BODY = mm({**ROUND, "upper_arm": 12, "wrist": 6.3, "elbow": 11, "sleeve_length": 23, "shoulder_to_elbow": 13.5, "height": 65, "knee": 14, "thigh": 24,
           "ankle": 9, "inseam": 30, "outseam": 40, "crotch_depth": 10.5, "waist_to_knee": 23, "waist_to_floor": 41, "calf": 14, "body_rise": 10.5, "inside_leg": 30})
LAYERS = {"shell": "silk", "lining": "lawn", "stay": "fusible", "wadding": "wadding"}
PAIRED = ("lined", "closure", "skirt.kind", "waist")
"""Choices that change the order most: each is tried with each of the others."""


def asked() -> list[tuple[str, tuple]]:
    """Every kind as it comes, with each choice of each option, and with each two of the choices that matter most."""
    found = []
    for kind in KINDS.values():
        choices = {option.key: [choice.value for choice in option.choices] for option in kind.options if option.choices}
        found.append((kind.name, ()))
        found += [(kind.name, ((key, value),)) for key, values in choices.items() for value in values]
        for a, b in itertools.combinations([key for key in PAIRED if key in choices], 2):
            found += [(kind.name, ((a, x), (b, y))) for x in choices[a] for y in choices[b]]
    return found


def two_sided() -> Draft:
    """A gown that is taken in at the left side only: its pairs are cut one by one."""
    options = {"lined": True, "skirt.kind": "straight"}
    measures = {key: value for key, value in BODY.items() if key in {*KINDS["bustier-gown"].measures, *KINDS["bustier-gown"].optional_measures}}
    return draft(GarmentSpec("bustier-gown", options, measures, {}, LAYERS, fit_notes=(FitNote("side waist", "left", -12.7),)))


@cache
def drafted(kind: str, choices: tuple) -> Draft | None:
    """The draft; None where these choices don't go together, which other tests ask after."""
    known = {*KINDS[kind].measures, *KINDS[kind].optional_measures}
    options = dict(choices)
    options |= {"skirt.kind": "circle"} if any(key in ("skirt.fraction", "skirt.panels") for key, _ in choices) else {}
    options |= {"skirt.kind": "gathered"} if any(key == "skirt.fullness" for key, _ in choices) else {}
    options |= {"skirt.kind": "gored"} if any(key == "skirt.gores" for key, _ in choices) else {}
    options |= {"skirt.kind": "mermaid"} if any(key == "skirt.godets" for key, _ in choices) else {}
    layers = LAYERS if ("lined", False) not in choices else {"shell": "silk"}
    try:
        return draft(GarmentSpec(kind, options, {key: value for key, value in BODY.items() if key in known}, {}, layers))
    except DraftingError:
        return None


ASKED = asked()


def every_garment(test: Callable[[str, tuple], None]) -> Callable[[str], None]:
    """One test for each kind that goes through all its choices; what fails says which they were."""

    @functools.wraps(test)
    def of_a_kind(kind):
        for choices in (choices for name, choices in ASKED if name == kind):
            try:
                test(kind, choices)
            except AssertionError as failed:
                failed.add_note(" ".join([kind, *(f"{key}={value}" for key, value in choices)]))
                raise

    del of_a_kind.__wrapped__  # pytest would ask for the choices
    return pytest.mark.parametrize("kind", list(KINDS))(of_a_kind)


def places(making: tuple[Act, ...]) -> dict[str, int]:
    return {act.key: i for i, act in enumerate(making)}


def stem(edge: str) -> str:
    return edge.partition(", ")[0].rstrip(" 0123456789")


def beside(piece, edge: str) -> set[str]:
    """The edges that touch this one on its piece; a dart is stepped over, and told as well."""
    names = [each.name for each in piece.edges]
    found = set()
    for step in (-1, 1):
        at = (names.index(edge) + step) % len(names)
        while names[at].startswith("dart "):
            found.add(names[at])
            at = (at + step) % len(names)
        found.add(names[at])
    return found


def is_lining(piece) -> bool:
    return piece.of is not None or piece.group == "lining"


def test_most_garments_asked_for_can_be_drafted():
    made = [drafted(*each) for each in ASKED]
    assert sum(each is not None for each in made) > 0.75 * len(made)
    assert {kind for (kind, _), each in zip(ASKED, made, strict=True) if each} == set(KINDS)


@every_garment
def test_every_seam_is_sewn_once_and_no_act_waits_for_a_later_one(kind, choices):
    if not (made := drafted(kind, choices)):
        return
    at = places(made.making)
    assert len(at) == len(made.making)
    sewn = [name for act in made.making for name in act.seams]
    assert sorted(sewn) == sorted(seam.name for seam in made.seams)
    for act in made.making:
        assert all(at[each.key] < at[act.key] for each in act.after), act.key


@every_garment
def test_darts_come_before_the_seams_that_cross_them_and_stay_before_sewing(kind, choices):
    if not (made := drafted(kind, choices)):
        return
    at = places(made.making)
    when = {name: at[act.key] for act in made.making for name in act.seams}
    pieces = {piece.name: piece for piece in made.pieces}
    darts = {ref: seam.name for seam in made.seams if seam.name.startswith("dart ") for ref in (*seam.a, *seam.b)}
    for seam in made.seams:
        if seam.name in darts.values():
            continue
        for name, edge in (*seam.a, *seam.b):
            for crossed in {darts[name, other] for other in beside(pieces[name], edge) if (name, other) in darts}:
                assert when[crossed] <= when[seam.name], (crossed, seam.name)
    for early in ("mark", "fuse", "quilt"):
        handled = next((set(act.pieces) for act in made.making if act.key == early), set())
        for seam in made.seams:
            if early == "mark" or handled & {name for name, _ in (*seam.a, *seam.b) if not is_lining(pieces[name])}:
                assert at[early] < when[seam.name], (early, seam.name)


@every_garment
def test_a_seam_that_runs_on_across_another_is_sewn_after_it(kind, choices):
    """Where one side of a seam lies on two pieces that touch it at a common seam, that common seam exists by then."""
    if not (made := drafted(kind, choices)):
        return
    at = places(made.making)
    when = {name: at[act.key] for act in made.making for name in act.seams}
    pieces = {piece.name: piece for piece in made.pieces}
    plain = [seam for seam in made.seams if not seam.name.startswith("dart ")]
    for then, first in itertools.permutations(plain, 2):
        if then.layer != first.layer or first.a == first.b:
            continue
        for side in (set(then.a), set(then.b)):
            meets = [any((name, other) in side for name, edge in part for other in beside(pieces[name], edge)) for part in (first.a, first.b)]
            if all(meets):
                assert when[first.name] <= when[then.name], (first.name, then.name)


@every_garment
def test_bones_go_into_casings_on_finished_seams_and_are_closed_in_after(kind, choices):
    made = drafted(kind, choices)
    if not made or not made.bones:
        return
    at = places(made.making)
    boned = {name for bone in made.bones for name in (bone.piece, *bone.pieces)}
    assert at["casings"] < at["bones"] < at["waist stay"]
    pieces = {piece.name: piece for piece in made.pieces}
    when = {name: at[act.key] for act in made.making for name in act.seams}
    for seam in made.seams:
        names = {name for name, _ in (*seam.a, *seam.b)}
        groups = {pieces[name].group for name in names}
        if names & boned and seam.layer == "outside" and len(groups) == 1 and not any(is_lining(pieces[name]) for name in names):
            assert when[seam.name] < at["casings"], seam.name
        if names & boned and any(is_lining(pieces[name]) for name in names) and not all(is_lining(pieces[name]) for name in names - boned):
            assert seam.layer == "lining" or at["bones"] < when[seam.name], seam.name


@every_garment
def test_what_is_fitted_is_basted_and_hems_and_pressing_come_last(kind, choices):
    if not (made := drafted(kind, choices)):
        return
    at = places(made.making)
    assert list(at)[0] == "mark" and list(at)[-1] == "press"
    for act in made.making:
        if act.does == "baste":
            assert at[act.key] < at["fit"]
    pieces = {piece.name: piece for piece in made.pieces}
    when = {name: at[act.key] for act in made.making for name in act.seams}
    for seam in made.seams:
        refs = [(pieces[name], edge) for name, edge in (*seam.a, *seam.b)]
        if any(piece.edge(edge).finish.name == "LET_OUT" and not is_lining(piece) for piece, edge in refs) and seam.layer == "outside":
            assert at["fit"] < when[seam.name], seam.name
        for piece, edge in refs:
            hem = at.get(f"hem: {piece.group}")
            if hem is not None and not is_lining(piece) and any(stem(other) == "hem" for other in beside(piece, edge)):
                assert when[seam.name] < hem, (seam.name, piece.name)


@every_garment
def test_every_act_names_its_figures_and_no_word_is_left_open(kind, choices):
    if not (made := drafted(kind, choices)):
        return
    for act in made.making:
        text, why = act.written(inches)
        assert text.endswith(".") and "{" not in text + why and "  " not in text, text
        assert not any(word in text.lower() for word in (" of the .", " to , ", "seam seam", "shell")), text
        assert len(text) < 420, text
    for act in made.making:
        if act.does in ("stitch", "dart", "baste"):
            assert act.figures, act.key


def test_a_garment_whose_halves_differ_is_sewn_in_the_same_order():
    made, plain = two_sided(), drafted("bustier-gown", (("lined", True), ("skirt.kind", "straight")))
    assert any(seam.name.endswith(", left") for seam in made.seams)
    sewn = [name for act in made.making for name in act.seams]
    assert sorted(sewn) == sorted(seam.name for seam in made.seams)
    assert [act.key for act in made.making if act.does != "dart"] == [
        act.key.replace(": skirt back", ": right skirt back") for act in plain.making if act.does != "dart"]
    [zip_] = [m for m in made.materials if m.item.startswith("zip")]
    assert zip_.amount == pytest.approx(next(m.amount for m in plain.materials if m.item.startswith("zip")))


def test_different_garments_have_different_lists():
    lists = {}
    for kind, choices in ((kind, ()) for kind in KINDS):
        lists[kind] = tuple(act.written(inches)[0] for act in drafted(kind, choices).making)
    assert len(set(lists.values())) == len(lists)
    lined, unlined = (drafted("bustier-gown", (("lined", value),)).making for value in (True, False))
    assert {"lining", "stitch: top edge"} <= places(lined).keys()
    assert "lining" not in places(unlined) and "facings" in places(unlined)  # its top edge is faced
    laced = places(drafted("bustier-gown", (("closure", "back-lacing"),)).making)
    assert {"panel", "close: below the lacing"} <= laced.keys()


def test_a_gown_is_sewn_as_a_dressmaker_would():
    at = places(drafted("bustier-gown", (("lined", True), ("skirt.kind", "straight"))).making)
    wanted = ["mark", "fuse", "quilt", "stitch: cup seam", "stitch: under-bust", "baste: top", "fit", "stitch: side, top", "casings", "bones", "stitch: waist",
              "close", "lining", "stitch: top edge", "fell lining", "waist stay", "hem: skirt", "press"]
    assert [at[key] for key in wanted] == sorted(at[key] for key in wanted)


def test_a_seam_says_both_its_pieces_and_its_length():
    made = drafted("bustier-gown", ())
    [act] = [act for act in made.making if act.key == "stitch: cup seam"]
    pieces = {piece.name: piece for piece in made.pieces}
    assert act.figures[0] == pytest.approx(pieces["centre cup"].edge("cup seam").path.length())
    assert act.written(inches)[0].startswith("Cup seams: centre cup to side cup, 6 3/16 in")


def test_acts_are_sorted_by_what_they_wait_for_then_by_rank():
    made = in_order([Act("c", "x", "", after=(After("a", ""),), rank=1), Act("b", "x", "", rank=2), Act("a", "x", "", rank=3)])
    assert [act.key for act in made] == ["b", "a", "c"]


def test_what_a_garment_has_not_is_not_waited_for_nor_told():
    [act] = in_order([Act("a", "x", "", after=(After("the lining", "it is lined"),))])
    assert act.after == () and act.why == ""


def test_acts_that_wait_for_each_other_are_still_listed():
    made = in_order([Act("a", "x", "", after=(After("b", ""),), rank=2), Act("b", "x", "", after=(After("a", ""),), rank=1)])
    assert [act.key for act in made] == ["b", "a"]


@every_garment
def test_materials_are_listed_once_and_bones_add_up(kind, choices):
    if not (made := drafted(kind, choices)):
        return
    items = [material.item for material in made.materials]
    assert len(set(items)) == len(items) and "thread" in items
    if made.bones:
        count = sum(bone.count for bone in made.bones)
        tips = next(m for m in made.materials if m.item == "bone tips")
        assert tips.amount == 2 * count
    if made.spec.options.get("closure") == "back-zip":
        assert any(item.startswith("zip") for item in items)
    if made.spec.options.get("closure") == "back-lacing":
        assert any("lacing" in item for item in items)
