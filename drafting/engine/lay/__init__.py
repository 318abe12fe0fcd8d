"""Laying pieces on cloth: how much is needed, and how they lie.

outline → shapes → wholes → things (what is to be placed, by layout) → nofit (tables) → place → sequence → lying → squeeze → settle
engines (our search, second (an optional engine) and taut on one layout)
flat (a lay opened out) → left (what it leaves), recut (a miscut, with piecing)
bounds (what no lay can go below) · recheck (Shapely) · answer (Lay) · planner (the way in)
"""

from .answer import Lay, Placed, amount, to_step
from .cloth import LAYOUTS, LayCloth, LayPiece
from .errors import LayError
from .left import Leftover, left_of
from .piecing import ALONG, pieced
from .planner import plan
from .recut import Recut, print_ahead, recut
from .second import cpu_seconds

__all__ = [
    "ALONG",
    "LAYOUTS",
    "Lay",
    "LayCloth",
    "LayError",
    "LayPiece",
    "Leftover",
    "Placed",
    "Recut",
    "amount",
    "cpu_seconds",
    "left_of",
    "pieced",
    "plan",
    "print_ahead",
    "recut",
    "to_step",
]
