"""The inputs of all that can be chosen for a garment, drawn once for each set of choices.

They are made of a `Chosen` and of nothing else, and kept in memory by it: orders with the same choices share them, and what is
changed, for the garment or in the workshop's rules, is another `Chosen`.
"""

import json
from typing import NamedTuple

from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from orders.garment.form import GarmentForm
from orders.models import Garment
from workshop.few_kept import FewKept
from workshop.models import Workshop


class Chosen(NamedTuple):
    """All that the form of a garment is made from; choices and rules as JSON."""

    kind: str
    options: str
    rules: str
    unit: str
    house_rules: str


_kept: FewKept[SafeString] = FewKept(256)


def choosing(garment: Garment, form: GarmentForm | None = None) -> SafeString:
    """With a form that was sent and not accepted, what was typed and what is wrong with it."""
    return drawn(form) if form else _kept(chosen_of(garment), lambda: drawn(GarmentForm(garment=garment)))


def chosen_of(garment: Garment) -> Chosen:
    workshop = Workshop.current()
    options, rules, house_rules = (json.dumps(each, sort_keys=True) for each in (garment.options, garment.rules, workshop.house_rules))
    return Chosen(garment.kind, options, rules, workshop.unit, house_rules)


def drawn(form: GarmentForm) -> SafeString:
    return render_to_string("orders/_choosing.html", {"form": form})
