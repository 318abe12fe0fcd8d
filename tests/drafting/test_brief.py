"""The order file, read: what is accepted, and for each thing that is not, one sentence that names it."""

from datetime import date
from decimal import Decimal

import pytest

from drafting.brief import BriefError, read_brief
from tests.drafting.orders import LEAVE_OUT, example, spoiled


def problems(data) -> list[str]:
    with pytest.raises(BriefError) as refused:
        read_brief(data)
    return refused.value.problems


def test_it_reads_every_key_of_the_contract():
    brief = read_brief(example())
    assert (brief.order, brief.client, brief.units, brief.measured_on) == ("S-014", "Ines", "in", date(2026, 3, 2))
    assert brief.measures["bust"].mm == Decimal("977.9")
    assert brief.measures["hip"].mm == Decimal(1040)
    assert brief.measures["shoulder_to_waist"].mm == Decimal("469.9")
    assert brief.measures["neck"].mm == Decimal("374.65")
    assert brief.garment.skirt.length.mm == Decimal("965.2")
    assert brief.garment.rules["let_out"].mm == Decimal("31.75")
    assert brief.cloths[0].on_hand.mm == Decimal("3657.6")
    assert brief.cloths[0].flaws[0][2][1].mm == Decimal("114.3")
    assert brief.dates.fittings == (date(2026, 3, 20),)
    assert brief.fit_notes[0].amount.mm == Decimal("-6.35")


def test_an_order_file_written_from_a_brief_reads_back_as_the_same_brief():
    brief = read_brief(example())
    assert read_brief(brief.as_order_file()) == brief


def test_lengths_stand_in_the_written_order_file_as_they_were_written():
    file = read_brief(example()).as_order_file()
    assert file["measures"] == example()["measures"]
    assert file["cloths"] == example()["cloths"]
    assert file["fit_notes"] == example()["fit_notes"]


def test_the_kinds_own_defaults_are_filled_in():
    order = example()
    order["garment"] = {"kind": "bustier-gown"}
    garment = read_brief(order).garment
    assert (garment.top_edge, garment.waist, garment.yoke) == ("straight", "straight", "none")
    assert garment.fit is not None and garment.closure is not None and garment.lined is not None


@pytest.mark.parametrize("key", ["dates", "notes", "fit_notes"])
def test_what_stands_after_cloths_may_be_left_out(key):
    assert read_brief(spoiled((key,), LEAVE_OUT))


@pytest.mark.parametrize("key", ["order", "client", "units", "measured_on", "measures", "garment", "cloths"])
def test_what_stands_up_to_cloths_is_asked_for(key):
    assert any(said.startswith(f"{key}: missing.") for said in problems(spoiled((key,), LEAVE_OUT)))


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        (("custmer",), "x", "custmer: unknown key."),
        (("measured",), "x", "measured: unknown key. Did you mean measure"),
        (("measures", "busst"), 38, "measures.busst: unknown measure. Did you mean bust?"),
        (("measures", "underbust"), 33, "measures.underbust: unknown measure. Did you mean under_bust?"),
        (("garment", "neck_line"), "v", "garment.neck_line: unknown key. Did you mean neckline?"),
        (("garment", "skirt", "lenght"), 38, "garment.skirt.lenght: unknown key. Did you mean length?"),
        (("garment", "rules", "letout"), 1, "garment.rules.letout: unknown house rule. Did you mean let_out?"),
        (("cloths", 1, "widht"), 44, "cloths[2].widht: unknown key. Did you mean width?"),
        (("dates", "colect"), "2026-03-28", "dates.colect: unknown key. Did you mean collect?"),
        (("fit_notes", 0, "ammount"), 1, "fit_notes[1].ammount: unknown key. Did you mean amount?"),
        (("garment", "sleeve"), {"kind": "puff", "lenth": 9}, "garment.sleeve.lenth: unknown key. Did you mean length?"),
    ],
)
def test_an_unknown_key_is_named_with_the_nearest_known(path, value, said):
    assert any(problem.startswith(said) for problem in problems(spoiled(path, value)))


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("measures", "bust"), "38 5/7"),
        (("measures", "bust"), "about 38"),
        (("measures", "bust"), ""),
        (("measures", "bust"), "38 1/2 ft"),
        (("measures", "bust"), "-38"),
        (("measures", "bust"), -38),
        (("measures", "bust"), 0),
        (("measures", "bust"), "0"),
        (("measures", "bust"), True),
        (("measures", "bust"), None),
        (("measures", "bust"), [38]),
        (("measures", "bust"), {"value": 38}),
        (("measures", "bust"), 978),
        (("measures", "bust"), float("inf")),
        (("measures", "bust"), float("nan")),
        (("measures", "bust"), 10**400),
        (("measures", "bust"), "9" * 5000),
        (("garment", "skirt", "length"), "long"),
        (("garment", "skirt", "length"), 0),
        (("garment", "rules", "let_out"), "-1"),
        (("garment", "rules", "let_out"), None),
        (("garment", "rules", "front_share"), 1.2),
        (("garment", "rules", "front_share"), "most"),
        (("cloths", 0, "width"), "wide"),
        (("cloths", 0, "width"), "1 in"),
        (("cloths", 0, "on_hand"), "-4yd"),
        (("cloths", 0, "selvedge"), "27.5 in"),
        (("cloths", 0, "shrink"), 3),
        (("cloths", 0, "shrink"), "3 %"),
        (("cloths", 0, "shrink"), True),
        (("cloths", 0, "price"), -1),
        (("cloths", 0, "price"), float("nan")),
    ],
)
def test_a_figure_that_cannot_be_used_is_named_by_its_path_and_what_was_read(path, value):
    names = [f"[{step + 1}]" if isinstance(step, int) else f".{step}" for step in path]
    where = "".join(names).lstrip(".")
    if where == "cloths[1].selvedge":
        where = "cloths[1].width"
    found = problems(spoiled(path, value))
    assert len(found) == 1
    assert found[0].startswith(f"{where}: ")
    assert len(found[0]) < 300


def test_an_unreadable_length_shows_what_was_read_and_what_to_write():
    (said,) = problems(spoiled(("measures", "bust"), "38 5/7"))
    assert said == "measures.bust: I can't read “38 5/7”. Use halves, quarters, eighths or sixteenths: 38 5/8."


@pytest.mark.parametrize(
    ("path", "value", "choices"),
    [
        (("units",), "inch", "in, cm, mm"),
        (("units",), 1, "in, cm, mm"),
        (("garment", "kind"), "ball-gown", "bustier-gown"),
        (("garment", "fit"), "tight", "corset, close, standard, loose"),
        (("garment", "top_edge"), "round", "straight, sweetheart, v"),
        (("garment", "neckline"), "high", "round, v, square, boat"),
        (("garment", "yoke"), True, "none, full, neck-frame"),
        (("garment", "waist"), None, "straight, basque"),
        (("garment", "closure"), "front-zip", "back-zip, back-lacing, side-zip"),
        (("garment", "skirt", "kind"), "pencil", "none, straight, a-line, circle, gathered, gored, mermaid"),
        (("cloths", 0, "layout"), "flat", "open, folded, crosswise, best"),
        (("fit_notes", 0, "side"), "front", "both, left, right"),
        (("garment", "sleeve"), {"kind": "raglan"}, "set-in, fitted, short, puff, bell, flutter, cap"),
    ],
)
def test_a_choice_that_is_none_is_answered_with_the_choices(path, value, choices):
    assert any(f"Choices: {choices}" in said for said in problems(spoiled(path, value)))


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("garment",), "bustier-gown"),
        (("garment",), None),
        (("garment", "skirt"), "a-line"),
        (("garment", "skirt"), None),
        (("garment", "sleeve"), "none"),
        (("garment", "rules"), [1]),
        (("garment", "lined"), "yes"),
        (("garment", "lined"), 1),
        (("measures",), [38]),
        (("cloths",), {"name": "lawn"}),
        (("cloths", 0), "brocade"),
        (("cloths", 0, "for"), "shell"),
        (("cloths", 0, "for"), []),
        (("cloths", 0, "for"), ["shel"]),
        (("cloths", 0, "for"), ["shell", "shell"]),
        (("cloths", 0, "name"), ""),
        (("cloths", 0, "name"), 7),
        (("cloths", 0, "name"), "broc\x07ade"),
        (("cloths", 0, "one_way"), "yes"),
        (("cloths", 0, "match"), "band"),
        (("cloths", 0, "match"), [1]),
        (("cloths", 0, "motifs"), [{"piece": "band", "at": [1]}]),
        (("cloths", 0, "motifs"), [{"at": [1, 2]}]),
        (("cloths", 0, "motifs"), [{"piece": "band"}, {"piece": "band"}]),
        (("cloths", 1, "motifs"), [{"piece": "band"}]),
        (("cloths", 0, "flaws"), [[1, 2]]),
        (("cloths", 0, "flaws"), [[[1, 2], [3, 4]]]),
        (("cloths", 0, "flaws"), [[[1, 2], [3, 4], [5]]]),
        (("cloths", 1, "name"), "brocade"),
        (("cloths", 1, "for"), ["shell"]),
        (("dates",), []),
        (("dates", "cut"), "13 March"),
        (("dates", "cut"), "2026-02-30"),
        (("dates", "cut"), "20260313"),
        (("dates", "cut"), None),
        (("dates", "fittings"), "2026-03-20"),
        (("dates", "fittings"), ["soon"]),
        (("measured_on",), "yesterday"),
        (("measured_on",), 20260302),
        (("client",), ""),
        (("client",), None),
        (("client",), "x" * 101),
        (("client",), "Ines\u0000"),
        (("client",), "In\ud800es"),
        (("notes",), "one note"),
        (("notes",), [""]),
        (("notes",), ["x" * 2001]),
        (("notes",), ["x"] * 201),
        (("fit_notes",), {}),
        (("fit_notes", 0), "side waist"),
        (("fit_notes", 0, "amount"), LEAVE_OUT),
        (("fit_notes", 0, "place"), LEAVE_OUT),
        (("garment", "skirt", "gores"), 6),
        (("garment", "skirt", "fullness"), 2),
        (("garment", "neckline"), "round"),
        (("garment", "sleeve"), {"kind": "puff"}),
        (("measures", "skirt_length"), 38),
        (("measures", "bust"), LEAVE_OUT),
    ],
)
def test_a_wrong_type_or_a_contradiction_gives_one_problem(path, value):
    found = problems(spoiled(path, value))
    assert len(found) == 1, found
    assert found[0].startswith(str(path[0]))


@pytest.mark.parametrize("name", ["", " ", "../x", "a/b", "..", ".", "/etc", "a\\b", "x" * 81, "a\0b", "CON", "nul.txt", "a ", ".x", "a:b", "-rf", "~", "a\u202egpj", "\u2066a", 14, None])
def test_an_order_name_that_cannot_be_a_folder_of_its_own_is_refused(name):
    (said,) = problems(spoiled(("order",), name))
    assert said.startswith("order: ")


@pytest.mark.parametrize("name", ["S-014", "14", "Ines 2", "a~b", "Überwurf_3", "a.b", "консул"])
def test_a_plain_order_name_is_kept(name):
    assert read_brief(spoiled(("order",), name)).order == name


@pytest.mark.parametrize("data", [None, [], "order", 1, True])
def test_a_file_that_is_no_object_is_told_so(data):
    (said,) = problems(data)
    assert "An order file is one JSON object" in said


def test_all_problems_of_a_file_are_listed_at_once():
    order = spoiled(("measures", "bust"), "38 5/7")
    order["garment"]["fit"] = "tight"
    order["cloths"][1]["widht"] = 44
    order["dates"]["cut"] = "soon"
    assert [said.partition(":")[0] for said in problems(order)] == [
        "measures.bust",
        "cloths[2].widht",
        "dates.cut",
        "garment.fit",
    ]


def test_a_file_full_of_unknown_keys_is_answered_in_a_page():
    order = example() | {f"key {n}": n for n in range(5000)}
    error = BriefError(problems(order))
    assert len(str(error).splitlines()) < 50


def test_a_fit_note_without_a_side_is_for_both():
    assert read_brief(spoiled(("fit_notes", 0, "side"), LEAVE_OUT)).fit_notes[0].side == "both"


def test_an_order_without_cloths_is_read():
    assert read_brief(spoiled(("cloths",), [])).cloths == ()


def test_a_brief_cannot_be_changed():
    brief = read_brief(example())
    with pytest.raises(AttributeError):
        brief.order = "S-015"
    with pytest.raises(TypeError):
        brief.measures["bust"] = None


def test_cups_and_straps_are_read_and_written_back():
    file = example()
    file["garment"] |= {"cups": "three", "straps": "shoulder", "waist": "basque", "closure": "side-zip"}
    file["garment"]["rules"] = {"basque_depth": 4, "basque_side": "1/2", "strap_width": "3/4", "waist_stay": 1}
    brief = read_brief(file)
    assert (brief.garment.cups, brief.garment.straps) == ("three", "shoulder")
    assert brief.garment.rules["waist_stay"].mm == Decimal("25.4")
    assert read_brief(brief.as_order_file()) == brief


def test_a_basque_needs_the_hip_even_without_a_skirt():
    file = example()
    del file["measures"]["hip"]
    file["garment"] |= {"waist": "basque", "skirt": {"kind": "none"}}
    assert any(problem.startswith("measures.hip") for problem in problems(file))
    file["garment"]["waist"] = "straight"
    assert read_brief(file).garment.waist == "straight"
