"""The few orders that are over and that something is still asked of: as the indexes of them say it.

A question must say it in the same words, and without a value of its own, for SQLite to take the index.
"""

from django.db.models import F, Q

#: Something to pay, or to give back.
UNSETTLED = Q(price__gt=F("paid")) | Q(price__lt=F("paid")) | Q(kept__gt=F("paid")) | Q(kept__lt=F("paid"))
#: Collected, and what was left over of the client's is not given back: why such an order was called off is an empty text.
LEFT_HERE = Q(is_open=False, leftovers_on=None, leftovers__gt=F("why_called_off"))
