"""One sheet shown through many pages: the sheet becomes one form that every page draws at its own place."""

from __future__ import annotations

from io import BytesIO

from drafting.paper.papers import MARGIN
from drafting.paper.tiles import Grid, Tile
from drafting.pdf import joined, saved

POINT = 72 / 25.4
"""PDF points to the millimetre."""


def on_pages(sheet: bytes, frames: bytes, tiles: list[Tile], grid: Grid) -> bytes:
    """Return `frames` (a first page, then one page a tile) with the sheet's window drawn under each tile's frame.

    The sheet is stored once. Its drawing is clipped to the window, so a page holds nothing of it beyond its frame. What
    the frames' own pages hold (names, and a stamp across) lies under it.
    """
    import pikepdf

    with pikepdf.open(BytesIO(sheet)) as large, pikepdf.open(BytesIO(frames)) as pages:
        form = pages.copy_foreign(large.pages[0].as_form_xobject())
        high = float(large.pages[0].mediabox[3])
        wide, tall = grid.paper.inner_width * POINT, grid.paper.inner_length * POINT
        for page, tile in zip(list(pages.pages)[1:], tiles, strict=True):
            page.obj.Resources = pikepdf.Dictionary(page.obj.Resources)  # WeasyPrint's pages share one
            if "/XObject" in page.obj.Resources:
                page.obj.Resources.XObject = pikepdf.Dictionary(page.obj.Resources.XObject)
            name = page.add_resource(form, pikepdf.Name.XObject, pikepdf.Name.Sheet)
            left = (MARGIN - tile.left) * POINT
            bottom = (grid.paper.length - MARGIN + tile.top) * POINT - high
            edge = MARGIN * POINT
            drawn = f"q {edge:.5f} {edge:.5f} {wide:.5f} {tall:.5f} re W n 1 0 0 1 {left:.5f} {bottom:.5f} cm {name} Do Q"
            page.contents_add(pikepdf.Stream(pages, b"q"), prepend=True)  # WeasyPrint leaves its own turned axes behind
            page.contents_add(pikepdf.Stream(pages, f"Q\n{drawn}\n{_frame(tile, grid)}".encode()))
        return saved(pages)


FINE = 0.15
HALF_MARK = 4.0
"""Width of a frame's line, and half the height of the diamond that two pages' marks make, mm."""


def _frame(tile: Tile, grid: Grid) -> str:
    """Return PDF operators, in mm from the page's lower left: the frame, dashed lines to lay neighbours on, half marks.

    A right or lower neighbour is laid on up to the dashed line, which lies the overlap's width inside the frame; the
    halves of the marks lie either side of it.
    """
    paper = grid.paper
    left, right, low, top = MARGIN, paper.width - MARGIN, MARGIN, paper.length - MARGIN
    inner_right, inner_low = left + grid.step_across, top - grid.step_down
    middle_x, middle_y, half = (left + inner_right) / 2, (top + inner_low) / 2, HALF_MARK
    marks = [
        (tile.after, (inner_right, middle_y), (-half, 0.0)), (tile.before, (left, middle_y), (half, 0.0)),
        (tile.below, (middle_x, inner_low), (0.0, half)), (tile.above, (middle_x, top), (0.0, -half)),
    ]  # fmt: skip
    drawn = [f"q {POINT:.8f} 0 0 {POINT:.8f} 0 0 cm {FINE} w {left:g} {low:g} {right - left:g} {top - low:g} re S"]
    dashed = [
        f"{inner_right:g} {low:g} m {inner_right:g} {top:g} l" if tile.after else "",
        f"{left:g} {inner_low:g} m {right:g} {inner_low:g} l" if tile.below else "",
    ]
    drawn += [f"[2 1.2] 0 d {line} S" for line in dashed if line]
    drawn.append("[] 0 d 0.35 w")
    for there, (x, y), (dx, dy) in marks:
        if there:
            drawn.append(f"{x + dy:g} {y + dx:g} m {x - dy:g} {y - dx:g} l {x + dx:g} {y + dy:g} l h S")
    return " ".join([*drawn, "Q"])


def together(sheets: list[bytes]) -> bytes:
    """Return one PDF of large pages, in order."""
    return sheets[0] if len(sheets) == 1 else joined(sheets)
