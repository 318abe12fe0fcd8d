"""manage.py lay: what it writes, and one clear message with status 2 and no file for whatever can't be laid."""

import json
from xml.etree import ElementTree

import pytest
from django.core.management import call_command

LAY = {
    "name": "any",
    "units": "mm",
    "cloth": {
        "width": 1143,
        "selvedge": 12.7,
        "layout": "folded",
        "one_way": False,
        "repeat": 0,
        "gap": 0,
        "length": None,
        "flaws": [],
    },
    "pieces": [
        {
            "name": "front",
            "outline": [[0, 0], [200, 0], [200, 400], [0, 400]],
            "count": 1,
            "on_fold": True,
            "turns": [0, 180],
            "mirror": "pair",
        }
    ],
}
SQUARE = [[0, 0], [200, 0], [200, 200], [0, 200]]


@pytest.fixture
def run(tmp_path, capsys):
    def run(data, *options):
        path = tmp_path / "lay-file.json"
        path.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
        with pytest.raises(SystemExit) as ended:
            call_command("lay", str(path), "--out", str(tmp_path / "out"), *(options or ("--seconds", "0.2")))
        said = capsys.readouterr()
        return ended.value.code, said.out.replace("\u00a0", " "), said.err.replace("\u00a0", " "), tmp_path / "out"

    return run


def spoiled(path, value):
    """The good lay file with the one key at `path` changed, or taken out where the value is KeyError."""
    data = json.loads(json.dumps(LAY))
    *ahead, key = path
    at = data
    for step in ahead:
        at = at[step]
    if value is KeyError:
        del at[key]
    else:
        at[key] = value
    return data


def test_the_contracts_own_example_is_laid(run):
    status, said, _, out = run(LAY)
    assert status == 0 and "400 mm" in said
    lay = json.loads((out / "lay.json").read_text(encoding="utf-8"))
    assert lay["length"] == 400 and lay["usable"] == pytest.approx((1143 - 25.4) / 2)
    assert {
        "cloth",
        "width",
        "usable",
        "layout",
        "length",
        "to_buy",
        "on_hand",
        "fits_on_hand",
        "used",
        "at_least",
        "placed",
    } <= set(lay)
    assert set(lay["placed"][0]) >= {"piece", "outline", "mirrored", "turned", "layers", "gives"}


def test_the_drawing_is_millimetres_with_names_and_ticks(run):
    *_, out = run(spoiled(("name",), "<any> & all"))
    svg = ElementTree.fromstring((out / "lay.svg").read_text(encoding="utf-8"))
    texts = [text.text for text in svg.iter("{http://www.w3.org/2000/svg}text")]
    assert "front" in texts and "fold" in texts
    assert svg.get("width").endswith("mm")
    assert svg.find("{http://www.w3.org/2000/svg}title").text == "<any> & all"


@pytest.mark.parametrize(
    ("path", "value", "key", "remedy"),
    [
        (("units",), KeyError, "units", "in, cm, mm"),
        (("units",), "ell", "units", "Choices"),
        (("cloth",), KeyError, "cloth", "Give"),
        (("cloth", "width"), 0, "cloth.width", "more than nothing"),
        (("cloth", "width"), "wide", "cloth.width", "wide"),
        (("cloth", "width"), 20, "cloth.width", "no cloth is left"),
        (("cloth", "length"), 0, "cloth.length", "more than nothing"),
        (("cloth", "layout"), "fold", "cloth.layout", "folded"),
        (("cloth", "one_way"), "yes", "cloth.one_way", "true or false"),
        (("cloth", "shrink"), 3, "cloth.shrink", "0.03"),
        (("cloth", "gap"), "-1", "cloth.gap", "-1"),
        (("cloth", "colour"), "red", "cloth.colour", "unknown key"),
        (("cloth", "flaws"), [[[0, 0], [1, 1]]], "cloth.flaws[1]", "3 to"),
        (("pieces",), [], "pieces", "Give a list"),
        (("pieces", 0, "outline"), [[0, 0], [1, 1]], "pieces[1].outline", "3 to"),
        (("pieces", 0, "outline"), [[0, 0], [10, 10], [10, 0], [0, 10]], "pieces[1].outline", "crosses itself"),
        (("pieces", 0, "outline"), [[0, 0], [10, "x"], [10, 0]], "pieces[1].outline[2]", "x"),
        (("pieces", 0, "outline"), [[5, 0], [200, 0], [200, 400], [5, 400]], "outline", "fold"),
        (("pieces", 0, "outline"), [[0, 0], [600, 0], [600, 400], [0, 400]], "cloth.width", "1225 mm"),
        (("pieces", 0, "count"), 0, "pieces[1].count", "from 1 to 2000"),
        (("pieces", 0, "count"), 10**9, "pieces[1].count", "from 1 to 2000"),
        (("pieces", 0, "count"), 1.5, "pieces[1].count", "whole number"),
        (("pieces", 0, "turns"), [], "pieces[1].turns", "[0, 180]"),
        (("pieces", 0, "mirror"), "both", "pieces[1].mirror", "pair"),
        (("pieces", 0, "name"), "", "pieces[1].name", "name"),
        (("pieces", 0), 7, "pieces[1]", "I read 7"),
    ],
)
def test_what_can_not_be_laid_is_one_message_with_its_key_and_no_file(run, path, value, key, remedy):
    status, _, said, out = run(spoiled(path, value))
    assert status == 2
    assert key in said and remedy in said
    assert "Traceback" not in said
    assert not out.exists()


def test_a_repeat_longer_than_the_cloth_on_hand_is_refused(run):
    data = spoiled(("cloth", "length"), 500)
    data["cloth"]["repeat"] = 600
    status, _, said, out = run(data)
    assert status == 2 and "cloth.repeat" in said and "600 mm" in said and not out.exists()


@pytest.mark.parametrize("text", ["", "{", "[]", "nul", '{"units": NaN}', '{"a": 1, "a": 2}'])
def test_what_is_no_lay_file_is_said(run, text):
    status, _, said, out = run(text)
    assert status == 2 and "order file" not in said and not out.exists()


def test_a_file_that_is_not_there_is_said(tmp_path, capsys):
    with pytest.raises(SystemExit) as ended:
        call_command("lay", str(tmp_path / "none.json"), "--out", str(tmp_path / "out"))
    assert ended.value.code == 2 and "can't be read" in capsys.readouterr().err


@pytest.mark.parametrize("seconds", ["-1", "ten", "nan", "1e9"])
def test_seconds_are_read_or_refused(run, seconds):
    status, _, said, out = run(LAY, "--seconds", seconds)
    assert status == 2 and "--seconds" in said and not out.exists()


def test_a_thousand_pieces_end_within_the_budget_and_a_second(run):
    import time

    data = spoiled(
        ("pieces",), [{"name": f"p{n}", "outline": [[0, 0], [40 + n % 37, 5], [30, 60 + n % 23]]} for n in range(1000)]
    )
    data["cloth"]["layout"] = "open"
    begun = time.process_time()
    status, *_, out = run(data, "--seconds", "1")
    took = time.process_time() - begun  # CPU, so that a busy machine does not fail it
    assert status == 0 and (out / "lay.svg").exists()
    assert took < 6  # reading, drawing and writing a thousand outlines come on top of the lay's own second


def test_fits_cannot_fit_and_no_lay_found_are_told_apart(run):
    data = spoiled(("cloth", "length"), 450)
    assert "it fits" in run(data)[1]
    data["cloth"]["length"] = 350
    assert "cannot fit" in run(data)[1]
