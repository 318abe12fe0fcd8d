"""The twelve sizes of ASTM D5585-11, measured on the polygons that jobsheet writes.

Body girths: the standard's Table 1. Lengths: bodies.py says where each comes from.
"""

import pytest

from tests.outside.bodies import SIZES, astm_body
from tests.outside.conftest import ASTM_ORDERS, FIGURES
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.geometry import INCH, edge_of, length, named, slice_width, x_at

EASE = {"bust": 1.0, "under_bust": 0.5, "waist": 0.5, "hip": 2.0}
"""A close fit, inches: the order file's contract with the method's table of ease."""
WADDING = 3 * 0.125
"""Wadding pressed to an eighth, three times round, inches: the method's rule for wadded cups."""


def test_every_size_is_drafted_and_passes_its_own_checks(astm_run):
    assert astm_run.status == 0, astm_run.err


@pytest.mark.parametrize("order", ASTM_ORDERS)
def test_the_result_keeps_the_contract_key_by_key(astm_run, order):
    assert breaches(astm_run.result(order)) == []


@pytest.mark.parametrize("order", ASTM_ORDERS)
def test_nothing_is_wrong_with_the_polygons(astm_run, order):
    assert all_faults(astm_run.result(order)) == []


@pytest.mark.parametrize("figure", FIGURES)
@pytest.mark.parametrize("size", SIZES)
def test_girths_measured_without_the_results_own_stretches_are_body_and_ease(astm_run, figure, size):
    """Widths taken by level and by edge, not from `across`: centre and side cup at the bust, edges below it."""
    result, body = astm_run.result(f"{figure}-{size}"), astm_body(size, figure)
    pieces, sides = named(result), result["side_levels"]
    centre, side, back = pieces["centre cup"], pieces["side cup"], pieces["back"]
    bands = [piece for name, piece in pieces.items() if name in ("band", "side band")]
    bust = result["levels"]["bust"]
    side_seam = edge_of(side, "side")["line"]
    measured = {
        "bust": slice_width(centre["net"], bust)
        + x_at(side_seam, sides["bust"])
        - x_at(edge_of(side, "cup seam")["line"], bust)
        + slice_width(back["net"], sides["bust"] - 0.01),
        "under_bust": sum(edges_length(piece, "under-bust") for piece in bands) + slice_width(back["net"], sides["under_bust"]),
        "waist": sum(edges_length(piece, "waist") for piece in bands) + edges_length(back, "waist"),
    }
    for level, half in measured.items():
        wanted = body[level] + EASE[level] + (WADDING if level == "bust" else 0)
        assert 2 * half / INCH == pytest.approx(wanted, abs=0.05), level


def edges_length(piece: dict, name: str) -> float:
    """The length of an edge, its numbered parts together."""
    return sum(length(edge["line"]) for edge in piece["edges"] if edge["name"].rstrip(" 0123456789") == name)


@pytest.mark.parametrize("order", ASTM_ORDERS)
def test_the_result_holds_the_body_that_was_asked_for(astm_run, order):
    figure, size = order.split("-")
    result, body = astm_run.result(order), astm_body(size, figure)
    for key, inches in body.items():
        assert result["measures"][key]["value"] == pytest.approx(inches * INCH, abs=0.01), key
        assert result["measures"][key]["estimated"] is False
    girths = {girth["level"]: girth for girth in result["girths"]}
    for level, ease in EASE.items():
        assert girths[level]["body"] == pytest.approx(body[level] * INCH, abs=0.01)
        wadding = WADDING if level == "bust" else 0
        assert girths[level]["ease"] == pytest.approx((ease + wadding) * INCH, abs=0.01)
