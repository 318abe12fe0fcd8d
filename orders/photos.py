"""Photographs of an order: kept as our own, with a small one for a row of them."""

from datetime import date
from io import BytesIO

from django import forms
from django.core.exceptions import ValidationError

from clients.fit_notes import BadPhoto, as_our_own
from orders.models import Order, OrderPhoto
from orders.stages import NotNow
from workshop.forms import PlainForm

#: The longer side of the small one, and how many an order takes.
SMALL_SIDE = 240
MOST = 24


class PhotoField(forms.FileField):
    """Cleans to a JPEG of ours, or None; what is no photograph that we read is refused before it is decoded."""

    def __init__(self, **kwargs):
        widget = forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp"})
        super().__init__(**{"widget": widget, "required": False, "label": "Photograph", "help_text": "Kept smaller, without place and time."} | kwargs)

    def clean(self, value, initial=None) -> bytes | None:
        upload = super().clean(value, initial)
        if not upload:
            return None
        try:
            return as_our_own(upload)
        except BadPhoto as refused:
            raise ValidationError(str(refused), code="photo") from None


class PhotoForm(PlainForm):
    photo = PhotoField(required=True)
    shows = forms.ChoiceField(label="It shows", choices=OrderPhoto.Shows.choices, widget=forms.RadioSelect, initial="wish")
    caption = forms.CharField(label="In words", max_length=120, required=False)


def keep(*, order: Order, jpeg: bytes, shows: str, caption: str = "", by, on: date) -> OrderPhoto:
    """Add a photograph that `as_our_own` has made."""
    if order.photos.count() >= MOST:
        raise NotNow(f"{order.number} has {MOST} photographs already. Take one out first.")
    return OrderPhoto.objects.create(order=order, jpeg=jpeg, small=small_of(jpeg), shows=shows, caption=caption, by=by, added_on=on)


def small_of(jpeg: bytes) -> bytes:
    from PIL import Image  # only here: pages that read no photograph do without

    with Image.open(BytesIO(jpeg), formats=("JPEG",)) as picture:
        picture.draft("RGB", (SMALL_SIDE, SMALL_SIDE))
        small = picture.convert("RGB")
    small.thumbnail((SMALL_SIDE, SMALL_SIDE))
    kept = BytesIO()
    small.save(kept, "JPEG", quality=75, optimize=True)
    return kept.getvalue()
