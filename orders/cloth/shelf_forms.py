"""The forms of the cloth shelf."""

from decimal import ROUND_CEILING, Decimal

from django import forms
from django.core.exceptions import ValidationError

from clients.models import Client
from orders.agreed.forms import WhoForm
from orders.cloth.fields import FlawsField, written_again
from orders.dates.bench_forms import NumberField
from orders.fields import ClothLengthField, DyeLotField, with_unit
from orders.models import Cloth, ShelfCloth
from orders.models.shelf import WHOSE
from workshop.forms import LengthField, PlainForm, Written
from workshop.models import Workshop

ONLY_SELVEDGES_MM = Decimal("25.4")
MOST_SHRINK = 30


class WidthField(LengthField):
    """A width as it is sold, with its unit, wide enough to leave something between the selvedges."""

    def clean(self, value) -> Written | None:
        width = super().clean(value)
        if width is None:
            return None
        if width.mm <= ONLY_SELVEDGES_MM:
            raise ValidationError(f"“{width.written}” leaves nothing between the selvedges. Write the width as it is sold.")
        return Written(with_unit(width.written, Workshop.current().unit), width.mm)


class LengthThere(ClothLengthField):
    """More than nothing: what is not there is not received."""

    def clean(self, value) -> Written | None:
        length = super().clean(value)
        if length is not None and length.mm <= 0:
            raise ValidationError(f"“{length.written}” is no cloth. Write how much came in.")
        return length


class ReceiveForm(PlainForm):
    """An order's cloth as it comes in."""

    length = LengthThere(label="How much came in")
    width = WidthField(label="Width")
    whose = forms.ChoiceField(label="Whose", choices=WHOSE, widget=forms.RadioSelect)
    dye_lot = DyeLotField()
    place = forms.CharField(label="Where it lies", max_length=40, required=False, help_text="Shelf 2, the blue box.")

    def __init__(self, *args, cloth: Cloth, **kwargs):
        party = cloth.order.party
        lot = party.dye_lot if party and party.cloth == cloth.name else ""
        super().__init__(*args, initial={"width": cloth.width_written, "whose": cloth.whose, "dye_lot": lot}, **kwargs)


class WhoseForm(WhoForm):
    """A client by name, or nobody where it is ours; part of a name is enough to be asked whom it means."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        del self.fields["phone"]
        name = self.fields["name"]
        name.label, name.required, name.help_text = "Whose, where it is a client’s", False, "Blank: ours."
        if "who" in self.fields and not Client.objects.named_like(self.data["name"][:120]).exists():
            who = self.fields["who"]
            who.label, who.error_messages["required"] = "Did you mean somebody in the book?", "That is part of a name in the book. Choose whom you mean."

    def namesakes(self) -> list[Client]:
        typed = self.data.get("name", "")[:120].strip()
        return (super().namesakes() or list(Client.objects.matching(typed, with_phone=False).order_by("name")[:5])) if typed else []

    def owner(self) -> Client | None:
        return self.client_meant() if self.cleaned_data["name"] else None


class AddForm(WhoseForm):
    """Cloth that came in for no order: of our own, or a client's who has none yet."""

    cloth = forms.CharField(label="Cloth", max_length=60)
    length = LengthThere(label="How much")
    width = WidthField(label="Width")
    dye_lot = DyeLotField()
    place = forms.CharField(label="Where it lies", max_length=40, required=False)
    field_order = ["cloth", "length", "width", "dye_lot", "place", "name", "who"]


class CheckForm(PlainForm):
    """What is found when it is rolled out under a lamp, and when a square of it is washed, wetted and ironed."""

    face = forms.CharField(label="Face", max_length=80, required=False, help_text="Which side is the right one, and how it is told: the shinier, the one with the slubs.")
    faults = FlawsField(label="Faults", required=False, help_text="One a line: from the left selvedge, from the cut end, how wide, how long. 12, 40, 3, 2")
    usable = WidthField(label="Usable width", required=False, help_text="Between the selvedges where they are spoiled or marked. Blank: as it is sold.")
    dye_lot = DyeLotField()
    before = LengthField(label="The square before washing", required=False, help_text="Cut it along the grain: 10 in, or 25 cm.")
    after = LengthField(label="The same after it", required=False)
    shrink = NumberField(label="Or: shrinks, %", low=0, high=MOST_SHRINK, places=1, required=False)
    bleed = forms.ChoiceField(label="Wetted and pressed on white", choices=[("", "not tried"), ("well", "nothing on the white"), ("badly", "it bleeds")], required=False, widget=forms.RadioSelect)
    iron = forms.ChoiceField(label="Ironed", choices=[("", "not tried"), ("well", "bears it"), ("badly", "marks, melts or shines")], required=False, widget=forms.RadioSelect)
    note = forms.CharField(label="Notes", max_length=200, required=False)

    def __init__(self, *args, on_shelf: ShelfCloth, **kwargs):
        initial = {name: getattr(on_shelf, name) for name in ("face", "dye_lot", "bleed", "iron", "note")}
        shrink = on_shelf.shrink_percent
        initial |= {"usable": on_shelf.usable_written, "faults": written_again(on_shelf.faults), "shrink": "" if shrink is None else f"{shrink.normalize():f}"}
        super().__init__(*args, initial=initial, **kwargs)

    def clean(self):
        given = super().clean()
        before, after = given.get("before"), given.get("after")
        if bool(before) != bool(after) and not {"before", "after"} & set(self.errors):
            self.add_error("after" if before else "before", "Write the square before and after, or neither.")
        elif before and after:
            try:
                given["shrink"] = shrinkage(before.mm, after.mm)
            except ValueError as refused:
                self.add_error("after", str(refused))
        return given

    def values(self) -> dict:
        given, usable = self.cleaned_data, self.cleaned_data["usable"]
        plain = {name: given[name] for name in ("face", "faults", "dye_lot", "bleed", "iron", "note")}
        return plain | {
            "usable_written": usable.written if usable else "", "usable_mm": usable.mm if usable else None, "shrink_percent": given["shrink"],
        }  # fmt: skip


def shrinkage(before: Decimal, after: Decimal) -> Decimal:
    """What a washed square lost, in hundredths of what it was, up to the next tenth. Raises ValueError where that can't be."""
    if before <= 0 or after > before:
        raise ValueError("After washing it is longer than before. Measure the square once more.")
    lost = ((before - after) / before * 100).quantize(Decimal("0.1"), ROUND_CEILING)
    if lost > MOST_SHRINK:
        raise ValueError(f"That is {lost}%, more than {MOST_SHRINK}. Measure once more; if it is so, wash the whole length first.")
    return lost


class LeftForm(PlainForm):
    """What is left after it was cut from."""

    length = ClothLengthField(label="Left", help_text="What is worth keeping; 0 where it is used up.")
    width = WidthField(label="Its width", required=False, help_text="Blank: as it was.")
    place = forms.CharField(label="Where it lies", max_length=40, required=False)


class PutForm(PlainForm):
    """For which order it is to be."""

    cloth = forms.ChoiceField(label="For")

    def __init__(self, *args, wanted, **kwargs):
        super().__init__(*args, **kwargs)
        self.wanted = {str(cloth.pk): cloth for _, cloth in wanted}
        self.fields["cloth"].choices = [(str(cloth.pk), f"{order.number} {order.client.name}: {cloth.name}") for order, cloth in wanted]
