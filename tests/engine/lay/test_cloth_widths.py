"""One dress on cloths of four widths, against the published chart that turns yardage at one width into another."""

import pytest

from drafting.engine.lay import LayCloth, plan
from tests.benchmarks.lay_dress import dress

YARD = 914.4

# Check values, section 4: the cloth-width conversion chart (two copies on the web agree; usually credited to a university's
# extension service). Columns: 35–36, 44–45, 52–54 and 58–60 in; yards. Its rule: a quarter of a yard either way.
CHART = (
    (1.75, 1.375, 1.125, 1.0),
    (2.0, 1.625, 1.375, 1.25),
    (2.25, 1.75, 1.5, 1.375),
    (2.5, 2.125, 1.75, 1.625),
    (2.875, 2.25, 1.875, 1.75),
    (3.125, 2.5, 2.0, 1.875),
    (3.375, 2.75, 2.25, 2.0),
    (3.75, 2.875, 2.375, 2.25),
    (4.25, 3.125, 2.625, 2.375),
    (4.5, 3.375, 2.75, 2.625),
    (4.75, 3.625, 2.875, 2.75),
    (5.0, 3.875, 3.125, 2.875),
)
WIDTHS = (36, 45, 54, 60)
QUARTER = 0.25
EIGHTH = 0.125


@pytest.fixture(scope="module")
def yards():
    """Yards to buy of each width for the dress of the benchmarks, two-way cloth, the shorter of folded and open; ended by count."""
    pieces = dress()
    return {
        width: plan(LayCloth(width=width * 25.4, layout="best"), pieces, seconds=60, tries=40, wall=False).to_buy / YARD
        for width in WIDTHS
    }


@pytest.mark.parametrize("width", WIDTHS)
def test_a_dress_stays_near_the_charts_row_for_its_45_inch_yardage(yards, width):
    row = min(CHART, key=lambda row: abs(row[1] - yards[45]))
    assert abs(row[1] - yards[45]) <= EIGHTH
    assert abs(yards[width] - row[WIDTHS.index(width)]) <= QUARTER + 1e-9


def test_wider_cloth_never_takes_more(yards):
    assert [yards[width] for width in WIDTHS] == sorted((yards[width] for width in WIDTHS), reverse=True)
