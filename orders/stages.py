"""The stages that an order goes through, and the refusal when a step makes no sense."""

from django.db.models import TextChoices


class Stage(TextChoices):
    ASKED = "asked", "asked about"
    BOOKED = "booked", "booked"
    MEASURED = "measured", "measured"
    CUT = "cut", "cut"
    SEWN = "sewn", "sewn"
    BROUGHT_IN = "brought_in", "brought in"
    IN_WORK = "in_work", "in work"
    READY = "ready", "ready"
    COLLECTED = "collected", "collected"
    CALLED_OFF = "called_off", "called off"


#: The way of a garment that is made, and of one that is altered or repaired.
MADE_WAY = (Stage.ASKED, Stage.BOOKED, Stage.MEASURED, Stage.CUT, Stage.SEWN, Stage.READY, Stage.COLLECTED)
REPAIR_WAY = (Stage.BROUGHT_IN, Stage.IN_WORK, Stage.READY, Stage.COLLECTED)
BEFORE_CUTTING = (Stage.ASKED, Stage.BOOKED, Stage.MEASURED)
AFTER_CUTTING = (Stage.CUT, Stage.SEWN, Stage.IN_WORK, Stage.READY)
OVER = (Stage.COLLECTED, Stage.CALLED_OFF)


class NotNow(Exception):
    """A step that the order can't take as it stands; the text says why, and what to do."""

    def __init__(self, reason: str):
        super().__init__(reason)
        self.reason = reason
