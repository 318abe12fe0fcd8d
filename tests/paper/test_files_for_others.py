"""DXF, SVG and the table, read back by ezdxf, an XML parser, Shapely and the csv module."""

import csv
import io
import re
import xml.etree.ElementTree as ET

import ezdxf
import pytest
from ezdxf import recover
from shapely import LineString, Polygon

from drafting.paper.about import About
from drafting.paper.choice import Choice, NothingChosen
from drafting.paper.cut_table import as_csv, harmless
from drafting.paper.dxf import as_dxf
from drafting.paper.svg_file import LAYERS, as_svg
from tests.paper.drafts import gown

ABOUT = About("Salt Lane Sewing Room", 4, "3f9a2c1b77aa")
ORDER, RESULT = gown()
BY_NAME = {piece["name"]: piece for piece in RESULT["pieces"]}
OUTLINES = [
    {**piece, "cut_line": line}
    for piece in RESULT["pieces"]
    for line in (piece["cut_line"], *(cut["cut_line"] for cut in piece["cut"] if cut.get("allowance")))
]
"""The pieces, one once more for a layer that is cut by an allowance of its own, as wadding without the let-out is."""


@pytest.fixture(scope="module")
def drawn():
    document, auditor = recover.read(io.BytesIO(as_dxf(ORDER, RESULT, about=ABOUT)))
    assert not auditor.errors
    return document


def blocks(document):
    return [document.blocks[insert.dxf.name] for insert in document.modelspace().query("INSERT")]


def on_layer(block, number):
    return [entity for entity in block if entity.dxf.layer == number]


def ring(polyline):
    return Polygon([(v.dxf.location.x, v.dxf.location.y) for v in polyline.vertices])


def test_ezdxf_finds_no_error_in_the_file(drawn):
    auditor = drawn.audit()
    assert not auditor.errors
    assert not auditor.fixes


def test_the_unit_is_told_as_millimetres(drawn):
    assert drawn.units == ezdxf.units.MM
    assert any(text.dxf.text == "Units: METRIC" for text in drawn.modelspace().query("TEXT"))


def test_there_is_one_block_a_piece_with_one_closed_outline_as_large_as_the_draft(drawn):
    # ASTM D6673: one BLOCK a piece, its boundary on layer 1. Areas by Shapely from the result file.
    found = blocks(drawn)
    assert len(found) == len(OUTLINES)
    for block, piece in zip(found, OUTLINES, strict=True):
        outlines = [entity for entity in on_layer(block, "1") if entity.dxftype() == "POLYLINE"]
        assert len(outlines) == 1 and outlines[0].is_closed
        drafted = Polygon(piece["cut_line"])
        assert ring(outlines[0]).is_valid
        assert ring(outlines[0]).area == pytest.approx(drafted.area, rel=1e-4)
        assert ring(outlines[0]).length == pytest.approx(drafted.length, rel=1e-4)


def test_layers_hold_what_their_numbers_say(drawn):
    # check-values: 1 boundary, 4 notches, 6 mirror line, 7 grain line, 8 internal, 13 drill holes, 14 sew lines, 15 annotation.
    for block, piece in zip(blocks(drawn), OUTLINES, strict=True):
        strokes = sum(2 if notch["mark"] == "double" else 1 for notch in piece["notches"])
        assert len(on_layer(block, "4")) == strokes
        assert len(on_layer(block, "6")) == (1 if piece["on_fold"] else 0)
        (grain,) = on_layer(block, "7")
        assert grain.dxf.start.distance(grain.dxf.end) == pytest.approx(LineString(piece["grain"]).length, abs=1e-6)
        assert len(on_layer(block, "13")) == len(piece["darts"])
        sewn = sum(LineString([(v.dxf.location.x, v.dxf.location.y) for v in line.vertices]).length for line in on_layer(block, "14"))
        truth = sum(LineString(e["line"]).length for e in piece["edges"] if e["name"] != "fold" and not e["name"].startswith("dart"))
        assert sewn == pytest.approx(truth, abs=0.2)
        corners = len(on_layer(block, "2"))
        assert 4 <= corners <= 12
        assert {entity.dxf.layer for entity in block} <= {"1", "2", "3", "4", "6", "7", "8", "13", "14", "15"}


def test_a_notch_lies_on_the_boundary_with_its_depth(drawn):
    for block in blocks(drawn):
        outline = next(ring(entity).exterior for entity in on_layer(block, "1") if entity.dxftype() == "POLYLINE")
        from shapely import Point

        for notch in on_layer(block, "4"):
            assert outline.distance(Point(notch.dxf.location.x, notch.dxf.location.y)) < 0.05
            assert notch.dxf.thickness >= 12.6  # every seam allowance of this draft is ½ in or more


def test_pieces_stand_upright_in_an_upward_axis(drawn):
    for block in blocks(drawn):
        (grain,) = on_layer(block, "7")
        assert grain.dxf.start.x == pytest.approx(grain.dxf.end.x, abs=1e-6)


def test_each_block_says_piece_quantity_and_material(drawn):
    said = [text.dxf.text for text in blocks(drawn)[0].query("TEXT")]
    assert "Piece Name: 1 Centre cup" in said
    assert "Material: brocade, woven fusible, cotton batting" in said


@pytest.mark.parametrize("name", ["Ẹ̀bùn", "Nguyễn Thị Hằng", "<img src=file:///etc/passwd>", "a\n0\nSECTION\n2\nHEADER", "%%u^M\\P"])
def test_a_strange_name_comes_back_as_written_and_breaks_nothing(name):
    data = as_dxf(ORDER | {"client": name, "order": "S-1"}, RESULT, about=ABOUT)
    document, auditor = recover.read(io.BytesIO(data))
    assert not auditor.errors
    fields = [text.dxf.text for text in document.modelspace().query("TEXT") if text.dxf.text.startswith("Sample Size")]
    assert fields == [f"Sample Size: {' '.join(name.split())}, measures of 2 March 2026"] or "^" in name
    assert len(blocks(document)) == len(OUTLINES)


def test_an_opened_half_has_no_mirror_line():
    document, _ = recover.read(io.BytesIO(as_dxf(ORDER, RESULT, choice=Choice(opened=True), about=ABOUT)))
    for block, piece in zip(blocks(document), OUTLINES, strict=True):
        assert not on_layer(block, "6")
        outline = next(entity for entity in on_layer(block, "1") if entity.dxftype() == "POLYLINE")
        assert ring(outline).area == pytest.approx(Polygon(piece["cut_line"]).area * (2 if piece["on_fold"] else 1), rel=1e-4)


def test_a_failed_draft_says_so_in_every_file():
    spoiled = RESULT | {"not_for_cutting": True}
    document, _ = recover.read(io.BytesIO(as_dxf(ORDER, spoiled, about=ABOUT)))
    for block in [document.modelspace(), *blocks(document)]:
        assert any("NOT FOR CUTTING" in text.dxf.text for text in block.query("TEXT"))
    assert "NOT FOR CUTTING" in as_svg(ORDER, spoiled, about=ABOUT).decode()
    assert all("NOT FOR CUTTING" in row["remarks"] for row in table(as_csv(ORDER, spoiled, about=ABOUT)))


SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def svg():
    return ET.fromstring(as_svg(ORDER, RESULT, about=ABOUT))  # noqa: S314 - our own file


def points(data):
    return [tuple(map(float, pair)) for pair in re.findall(r"([-\d.]+) ([-\d.]+)", data)]


def test_the_svg_is_in_millimetres(svg):
    _, _, wide, high = svg.get("viewBox").split()
    assert svg.get("width") == f"{wide}mm"
    assert svg.get("height") == f"{high}mm"


def test_each_kind_of_line_is_a_named_layer(svg):
    layers = {group.get("id"): group.find(f"{SVG}title").text for group in svg.iter(f"{SVG}g")}
    assert set(layers) == {"outline", "words", *LAYERS}
    assert layers["sew"] == "sewing line, dart"


def test_svg_outlines_are_as_large_as_the_draft(svg):
    outlines = svg.find(f"{SVG}g[@id='outline']").findall(f"{SVG}path")
    assert [path.get("data-piece") for path in outlines] == [piece["name"] for piece in OUTLINES]
    for path, piece in zip(outlines, OUTLINES, strict=True):
        drafted = Polygon(piece["cut_line"])
        assert Polygon(points(path.get("d"))).area == pytest.approx(drafted.area, rel=1e-4)


def test_svg_pieces_do_not_lie_on_each_other(svg):
    shapes = [Polygon(points(path.get("d"))) for path in svg.find(f"{SVG}g[@id='outline']").findall(f"{SVG}path")]
    assert min(a.distance(b) for i, a in enumerate(shapes) for b in shapes[:i]) >= 10 - 0.01


def test_a_hostile_name_stays_text_in_the_svg():
    name = '"><script>alert(1)</script><image href="file:///etc/passwd"/>'
    pieces = [piece | {"title": name, "cut": [cut | {"cloth": name} for cut in piece["cut"]]} for piece in RESULT["pieces"]]
    root = ET.fromstring(as_svg(ORDER | {"client": name, "order": name}, RESULT | {"pieces": pieces}, about=About(name)))  # noqa: S314
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {"svg", "title", "g", "path", "text", "tspan"}


def table(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))


def test_the_table_has_a_row_for_each_cloth_of_each_piece():
    rows = table(as_csv(ORDER, RESULT, about=ABOUT))
    assert len(rows) == sum(len(piece["cut"]) for piece in RESULT["pieces"])
    first = rows[0]
    assert (first["order"], first["cloth"], first["piece"], first["cut"]) == ("S-014", "brocade", "Centre cup", "1 on the fold")
    assert sum(int(row["finished pieces"]) for row in rows) == sum(cut["count"] for p in RESULT["pieces"] for cut in p["cut"])


@pytest.mark.parametrize(
    "text",
    # OWASP, CSV Injection: cells that start with = + - @ tab or carriage return.
    ["=1+1", "+44", "-2", "@SUM(A1)", "\t=1", "\r=1", "  =cmd", "\n=1", "=HYPERLINK(\"http://x\")"],
)
def test_no_cell_is_a_formula(text):
    assert harmless(text).startswith("'")
    renamed = [piece | {"title": text, "cut": [cut | {"cloth": text} for cut in piece["cut"]]} for piece in RESULT["pieces"]]
    for row in table(as_csv(ORDER | {"order": text}, RESULT | {"pieces": renamed}, about=ABOUT)):
        for cell in row.values():
            assert not cell.lstrip().startswith(("=", "+", "-", "@")), cell
            assert "\r" not in cell and "\n" not in cell and "\t" not in cell


def test_a_plain_cell_is_left_alone():
    assert harmless("Ẹ̀bùn ½ in") == "Ẹ̀bùn ½ in"


@pytest.mark.parametrize("write", [as_dxf, as_svg])
def test_a_choice_that_leaves_nothing_is_refused(write):
    with pytest.raises(NothingChosen):
        write(ORDER, RESULT, choice=Choice("wadding", frozenset({"band"})), about=ABOUT)
