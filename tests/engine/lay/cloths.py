"""Small cloths and outlines for the lay's tests, and an independent reading of a finished lay by Shapely alone."""

from shapely import STRtree
from shapely.geometry import Polygon

from drafting.engine.lay import Lay, LayCloth, LayPiece


def cloth(width=1000.0, **kind):
    """A cloth without selvedges, laid open unless told otherwise; mm."""
    return LayCloth(width=width, **({"selvedge": 0.0, "layout": "open"} | kind))


def rectangle(name, wide, long, **kind):
    return LayPiece(name, ((0, 0), (wide, 0), (wide, long), (0, long)), **kind)


def triangle(name, wide, long, **kind):
    return LayPiece(name, ((0, 0), (wide, 0), (0, long)), **kind)


def half_front(name="front", wide=200.0, long=400.0, **kind):
    """A right half with its fold at x = 0, narrower above than below."""
    outline = ((0, 0), (wide * 0.6, 0), (wide, long), (0, long))
    return LayPiece(name, outline, on_fold=True, **kind)


def overlap(lay: Lay) -> float:
    """The greatest area that two placed outlines on one layer have in common, mm²; by Shapely on the outlines alone."""
    shapes = [Polygon(placed.outline) for placed in lay.placed]
    layers = [{1, 2} if placed.layers == 2 else {2} if placed.under else {1} for placed in lay.placed]
    worst = 0.0
    for one, two in STRtree(shapes).query(shapes, predicate="intersects").T:
        if one < two and layers[one] & layers[two]:
            worst = max(worst, shapes[one].intersection(shapes[two]).area)
    return worst


def bounds(lay: Lay) -> tuple[float, float, float, float]:
    xs = [x for placed in lay.placed for x, _ in placed.outline]
    ys = [y for placed in lay.placed for _, y in placed.outline]
    return min(xs), min(ys), max(xs), max(ys)


def gives(lay: Lay) -> dict[str, int]:
    found: dict[str, int] = {}
    for placed in lay.placed:
        found[placed.piece] = found.get(placed.piece, 0) + placed.gives
    return found
