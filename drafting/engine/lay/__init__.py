"""Laying pieces on cloth: how much is needed, and how they lie.

outline → shapes → wholes → things (what is to be placed, by layout) → nofit (tables) → place → sequence → squeeze → settle
bounds (what no lay can go below) · recheck (Shapely) · answer (Lay) · planner (the way in) · second (an optional engine)
"""

from .answer import Lay, Placed, amount, to_step
from .cloth import LAYOUTS, LayCloth, LayPiece
from .errors import LayError
from .planner import plan

__all__ = ["LAYOUTS", "Lay", "LayCloth", "LayError", "LayPiece", "Placed", "amount", "plan", "to_step"]
