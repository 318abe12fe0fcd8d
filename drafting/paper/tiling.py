"""One sheet shown through many pages: the sheet becomes one form that every page draws at its own place."""

from __future__ import annotations

from io import BytesIO

from drafting.paper.letters import Letters
from drafting.paper.papers import MARGIN
from drafting.paper.tiles import Grid, Tile
from drafting.pdf import joined, saved

POINT = 72 / 25.4
"""PDF points to the millimetre."""
FINE, MARK = 0.15, 0.35
HALF_MARK = 4.0
"""Width of a frame's line, of a mark's, and half the height of the diamond that two pages' marks make, mm."""
NAME, NEIGHBOUR, COUNT = 4.0, 2.8, 2.5
"""Sizes of a page's own name, of its neighbours' names, and of “page 3 of 40”, mm."""
FOOT = 4.4
"""Height of the line at the foot of a page, mm."""


def on_pages(pressed: bytes, tiles: list[Tile], grid: Grid) -> bytes:
    """Return the first page, then one page a tile that shows its window of the sheet.

    `pressed` holds the first page and then three more: what stands on every page, the letters, and the whole sheet. The
    sheet is stored once. Its drawing is clipped to the window, so a page holds nothing of it beyond its frame.
    """
    import pikepdf

    with pikepdf.open(BytesIO(pressed)) as pdf:
        every, letters_page, sheet = list(pdf.pages)[-3:]
        letters = Letters.learned(letters_page)
        high = float(sheet.mediabox[3])
        forms = {"/Every": pdf.make_indirect(every.as_form_xobject()), "/Sheet": pdf.make_indirect(sheet.as_form_xobject())}
        shared = pdf.make_indirect(
            pikepdf.Dictionary(XObject=pikepdf.Dictionary(forms), Font=pikepdf.Dictionary({letters.name: letters.font}))
        )
        del pdf.pages[-3:]
        for place, tile in enumerate(tiles, start=1):
            page = pdf.add_blank_page(page_size=(grid.paper.width * POINT, grid.paper.length * POINT))
            drawn = [_window(tile, grid, high), *_frame(tile, grid), *_names(tile, grid, letters, f"page {place} of {len(tiles)}"), "Q"]
            page.obj.Resources = shared
            page.obj.Contents = pdf.make_stream("\n".join(drawn).encode())
        return saved(pdf)


def _window(tile: Tile, grid: Grid, high: float) -> str:
    """Return PDF operators: what is on every page, the sheet through its window; then a millimetre is the unit."""
    wide, tall, edge = grid.paper.inner_width * POINT, grid.paper.inner_length * POINT, MARGIN * POINT
    left = (MARGIN - tile.left) * POINT
    bottom = (grid.paper.length - MARGIN + tile.top) * POINT - high
    return (
        f"q /Every Do Q q {edge:.5f} {edge:.5f} {wide:.5f} {tall:.5f} re W n 1 0 0 1 {left:.5f} {bottom:.5f} cm /Sheet Do Q"
        f" q {POINT:.8f} 0 0 {POINT:.8f} 0 0 cm"
    )


def _inner(grid: Grid) -> tuple[float, float, float, float]:
    """Return left and top of the frame, and the dashed lines' right and low, mm from the page's lower left."""
    top = grid.paper.length - MARGIN
    return MARGIN, top, MARGIN + grid.step_across, top - grid.step_down


def _frame(tile: Tile, grid: Grid) -> list[str]:
    """Return PDF operators, in mm from the page's lower left: the frame, dashed lines to lay neighbours on, half marks.

    A right or lower neighbour is laid on up to the dashed line, which lies the overlap's width inside the frame; the
    halves of the marks lie either side of it.
    """
    left, top, inner_right, inner_low = _inner(grid)
    right, low = grid.paper.width - MARGIN, MARGIN
    middle_x, middle_y, half = (left + inner_right) / 2, (top + inner_low) / 2, HALF_MARK
    marks = [
        (tile.after, (inner_right, middle_y), (-half, 0.0)), (tile.before, (left, middle_y), (half, 0.0)),
        (tile.below, (middle_x, inner_low), (0.0, half)), (tile.above, (middle_x, top), (0.0, -half)),
    ]  # fmt: skip
    drawn = [f"{FINE} w {left:g} {low:g} {right - left:g} {top - low:g} re S"]
    dashed = [
        f"{inner_right:g} {low:g} m {inner_right:g} {top:g} l" if tile.after else "",
        f"{left:g} {inner_low:g} m {right:g} {inner_low:g} l" if tile.below else "",
    ]
    drawn += [f"[2 1.2] 0 d {line} S" for line in dashed if line]
    drawn.append(f"[] 0 d {MARK} w")
    for there, (x, y), (dx, dy) in marks:
        if there:
            drawn.append(f"{x + dy:g} {y + dx:g} m {x - dy:g} {y - dx:g} l {x + dx:g} {y + dy:g} l h S")
    return drawn


def _names(tile: Tile, grid: Grid, letters: Letters, count: str) -> list[str]:
    """Return PDF operators: the page's own name and count at its foot, each neighbour's name beside the half mark."""
    left, top, inner_right, inner_low = _inner(grid)
    middle_x, beside = (left + inner_right) / 2, (top + inner_low) / 2 + HALF_MARK + 0.7
    clear = HALF_MARK + 1.0
    written = [
        letters.written(tile.name, left, FOOT, size=NAME),
        letters.written(count, grid.paper.width - MARGIN, FOOT, size=COUNT, across=1.0),
    ]
    places = [
        (tile.after, inner_right - clear, beside, 1.0), (tile.before, left + clear, beside, 0.0),
        (tile.below, middle_x, inner_low + clear, 0.5), (tile.above, middle_x, top - clear - 0.72 * NEIGHBOUR, 0.5),
    ]  # fmt: skip
    return written + [letters.written(name, x, y, size=NEIGHBOUR, across=across) for name, x, y, across in places if name]


def together(sheets: list[bytes]) -> bytes:
    """Return one PDF of large pages, in order."""
    return sheets[0] if len(sheets) == 1 else joined(sheets)
