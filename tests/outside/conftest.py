import pytest

from tests.outside.bodies import SIZES, astm_body, order_file
from tests.outside.running import Run, jobsheet

FIGURES = ("curvy", "straight")
ASTM_ORDERS = [f"{figure}-{size}" for figure in FIGURES for size in SIZES]


@pytest.fixture(scope="session")
def astm_run(tmp_path_factory) -> Run:
    """All twelve sizes of ASTM D5585-11, curvy and straight, drafted in one call."""
    folder = tmp_path_factory.mktemp("astm") / "out"
    orders = [order_file(f"{figure}-{size}", astm_body(size, figure)) for figure in FIGURES for size in SIZES]
    return jobsheet(folder, *orders)
