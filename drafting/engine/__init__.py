"""The drafting engine: from a body's measures and a chosen style to pieces that can be cut.

It knows nothing of Django, of the web or of paper. Lengths are millimetres, x runs away from the fold, y runs down
the body, and a positive turn goes from x toward y (clockwise as drawn).
"""

from .draft import Draft
from .errors import DraftingError
from .garments import KINDS, draft
from .spec import GarmentSpec

__all__ = ["KINDS", "Draft", "DraftingError", "GarmentSpec", "draft"]
