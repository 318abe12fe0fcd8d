"""The stages that an order goes through, and the refusal when a step makes no sense."""

from django.db.models import TextChoices


class Stage(TextChoices):
    ASKED = "asked", "asked about"
    BOOKED = "booked", "booked"
    MEASURED = "measured", "measured"
    CUT = "cut", "cut"
    SEWN = "sewn", "sewn"
    READY = "ready", "ready"
    COLLECTED = "collected", "collected"
    CALLED_OFF = "called_off", "called off"


BEFORE_CUTTING = (Stage.ASKED, Stage.BOOKED, Stage.MEASURED)
AFTER_CUTTING = (Stage.CUT, Stage.SEWN, Stage.READY)
OVER = (Stage.COLLECTED, Stage.CALLED_OFF)


class NotNow(Exception):
    """A step that the order can't take as it stands; the text says why, and what to do."""

    def __init__(self, reason: str):
        super().__init__(reason)
        self.reason = reason
