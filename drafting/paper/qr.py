"""A small QR code that opens the order's page, drawn as one path."""

from __future__ import annotations

from drafting.linework import as_image

SIDE = 18.0
"""Millimetres on paper with its quiet zone: an address of 60 letters then has modules of half a millimetre."""


def qr_image(address: str) -> str:
    """Return the code as an image for paper; nothing where no address is known or it is too long for a code."""
    if not address:
        return ""
    import segno

    try:
        code = segno.make(address, error="m", micro=False)
    except segno.DataOverflowError:
        return ""
    rows = [list(row) for row in code.matrix_iter(scale=1, border=4)]
    data = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{SIDE}mm" height="{SIDE}mm" viewBox="0 0 {len(rows)} {len(rows)}"'
        f' shape-rendering="crispEdges"><path d="{data}"/></svg>'
    )
    return as_image(svg, "Code that opens the order's page")
