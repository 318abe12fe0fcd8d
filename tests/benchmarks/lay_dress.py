"""An invented dress to lay, of ten patterns: bodice, A-line skirt in four parts, sleeves, collar, facings, pockets.

Drawn for these benchmarks alone, in inches; it is nobody's pattern. Folded it is 12 placings, open 19.
"""

import math

from drafting.engine.lay import LayPiece

INCH = 25.4


def arc(x0, y0, x1, y1, bulge, steps=8):
    """Points from (x0, y0) to (x1, y1) along a shallow curve; `bulge` to the left of the way is positive. Without the last."""
    for n in range(steps):
        t = n / steps
        off = 4 * bulge * t * (1 - t)
        long = math.hypot(x1 - x0, y1 - y0)
        yield (x0 + (x1 - x0) * t + off * (y1 - y0) / long, y0 + (y1 - y0) * t - off * (x1 - x0) / long)


def piece(name, points, *, fold=False, count=1, scale=1.0):
    outline = tuple((x * INCH * scale, y * INCH * scale) for x, y in points)
    return LayPiece(name, outline, count=count, on_fold=fold, mirror="pair" if count > 1 else "never")


def dress(scale: float = 1.0) -> tuple[LayPiece, ...]:
    """The ten patterns, allowances included; `scale` makes another size."""
    bodice_front = [
        (0, 3.4),
        *arc(0, 3.4, 3.2, 0, 1.0),
        (3.2, 0),
        (7.6, 1.6),
        *arc(7.6, 1.6, 10.4, 8.2, 1.4),
        (10.4, 8.2),
        (9.2, 17.4),
        *arc(9.2, 17.4, 0, 17.9, -0.2),
        (0, 17.9),
    ]
    bodice_back = [
        (0, 1.2),
        *arc(0, 1.2, 3.2, 0, 0.4),
        (3.2, 0),
        (7.9, 1.9),
        *arc(7.9, 1.9, 10.2, 8.4, 1.1),
        (10.2, 8.4),
        (8.8, 17.2),
        (0, 17.4),
    ]
    skirt_front = [
        (0, 0.6),
        *arc(0, 0.6, 8.2, 0, 0.3),
        (8.2, 0),
        *arc(8.2, 0, 11.4, 8.5, -0.5),
        (11.4, 8.5),
        (16.5, 29.5),
        *arc(16.5, 29.5, 0, 31, -0.9),
        (0, 31),
    ]
    skirt_back = [
        (0, 0.9),
        *arc(0, 0.9, 8.6, 0, 0.3),
        (8.6, 0),
        *arc(8.6, 0, 11.8, 8.6, -0.5),
        (11.8, 8.6),
        (16.9, 29.6),
        *arc(16.9, 29.6, 0, 31.2, -0.9),
        (0, 31.2),
    ]
    sleeve = [
        (0, 6.2),
        *arc(0, 6.2, 7.2, 0, -1.0),
        *arc(7.2, 0, 14.6, 6.0, -1.2),
        (14.6, 6.0),
        (12.6, 22.4),
        (1.9, 22.4),
    ]
    collar = [(0, 0), (8.4, 0.5), (9.1, 3.2), *arc(9.1, 3.2, 0, 2.8, -0.3), (0, 2.8)]
    front_facing = [(0, 3.4), *arc(0, 3.4, 3.2, 0, 1.0), (3.2, 0), (5.6, 0.9), *arc(5.6, 0.9, 0, 6.2, -1.3), (0, 6.2)]
    back_facing = [(0, 1.2), *arc(0, 1.2, 3.2, 0, 0.4), (3.2, 0), (5.7, 1.0), *arc(5.7, 1.0, 0, 4.2, -0.7), (0, 4.2)]
    pocket = [(0, 0), (5.2, 0.8), *arc(5.2, 0.8, 6.8, 8.6, -1.6), (6.8, 8.6), (3.2, 11), (0, 9.6)]
    cuff = [(0, 0), (10.6, 0), (10.6, 3.6), (0, 3.6)]
    return (
        piece("bodice front", bodice_front, fold=True, scale=scale),
        piece("bodice back", bodice_back, count=2, scale=scale),
        piece("skirt front", skirt_front, fold=True, scale=scale),
        piece("skirt back", skirt_back, count=2, scale=scale),
        piece("sleeve", sleeve, count=2, scale=scale),
        piece("collar", collar, fold=True, count=2, scale=scale),
        piece("front facing", front_facing, fold=True, scale=scale),
        piece("back facing", back_facing, count=2, scale=scale),
        piece("pocket", pocket, count=4, scale=scale),
        piece("cuff", cuff, count=2, scale=scale),
    )


def dresses(count: int) -> tuple[LayPiece, ...]:
    """Several dresses of different sizes on one cloth: a party order."""
    from dataclasses import replace

    return tuple(replace(piece, name=f"{piece.name} {n + 1}") for n in range(count) for piece in dress(1 - 0.03 * n))
