"""What a print and a damaged cloth add to a cloth's form: repeats, pieces that must match, flaws and missing corners."""

from django import forms
from django.core.exceptions import ValidationError

from orders.fields import with_unit
from orders.models import Cloth, Order
from workshop.forms import LengthField, PlainForm
from workshop.length import UnreadableLength, parse_length, print_length
from workshop.models import Workshop

MOST_FLAWS = 30
PIECE_AND_PLACE = "Write the piece alone, or the piece and two lengths: front, 0, 4."
FOUR = "Write four lengths with commas between them: from the left selvedge, from the cut end, how wide, how long."


class FlawsField(forms.CharField):
    """One flaw a line, as a box; cleans to outlines as an order file has them, in millimetres."""

    widget = forms.Textarea(attrs={"rows": 3})

    def __init__(self, **kwargs):
        super().__init__(**{"max_length": 2000} | kwargs)

    def clean(self, value) -> list:
        lines = [line.strip() for line in (super().clean(value) or "").splitlines() if line.strip()]
        if len(lines) > MOST_FLAWS:
            raise ValidationError(f"That is {len(lines)} flaws; at most {MOST_FLAWS} are laid round. Write near ones as one.")
        return [flaw(line) for line in lines]


def flaw(line: str) -> list[list[str]]:
    parts = [part.strip() for part in line.replace(";", ",").split(",")]
    if len(parts) != 4 or not all(parts):
        raise ValidationError(f"I can’t read “{line}”. {FOUR}")
    try:
        x, y, wide, long = (parse_length(part, Workshop.current().unit) for part in parts)
    except UnreadableLength as refusal:
        raise ValidationError(f"{refusal} {FOUR}") from None
    if not (wide > 0 and long > 0):
        raise ValidationError(f"“{line}” has no size. {FOUR}")
    return [[f"{a} mm", f"{b} mm"] for a, b in ((x, y), (x + wide, y), (x + wide, y + long), (x, y + long))]


class MotifsField(forms.CharField):
    """One piece a line, with where on it or without; cleans to `motifs` as an order file has them. `names` are the pieces'."""

    widget = forms.Textarea(attrs={"rows": 2})

    def __init__(self, **kwargs):
        self.names: tuple[str, ...] = ()
        super().__init__(**{"max_length": 2000} | kwargs)

    def clean(self, value) -> list:
        lines = [line.strip() for line in (super().clean(value) or "").splitlines() if line.strip()]
        found = [motif(line, self.names) for line in lines]
        pieces = [each["piece"] for each in found]
        for piece in pieces:
            if pieces.count(piece) > 1:
                raise ValidationError(f"{piece[0].upper()}{piece[1:]} stands there twice. Place one point of a piece.")
        return found


def motif(line: str, names: tuple[str, ...]) -> dict:
    name, *at = [part.strip() for part in line.replace(";", ",").split(",")]
    known = next((each for each in names if each.casefold() == name.casefold()), None)
    if names and known is None:
        raise ValidationError(f"“{name}” is none of the pieces. Write one of these: {', '.join(names)}.")
    if len(at) not in (0, 2):
        raise ValidationError(f"I can’t read “{line}”. {PIECE_AND_PLACE}")
    try:
        lengths = [parse_length(part, Workshop.current().unit) for part in at]
    except UnreadableLength as refusal:
        raise ValidationError(f"{refusal} {PIECE_AND_PLACE}") from None
    return {"piece": known or name} | ({"at": [f"{mm} mm" for mm in lengths]} if at else {})


def motifs_again(motifs: list) -> str:
    """The motifs as they are typed."""
    unit = Workshop.current().unit
    return "\n".join(
        ", ".join([each["piece"], *(print_length(parse_length(part, unit), unit, step=16) for part in each.get("at", ()))])
        for each in motifs
    )


def written_again(flaws: list) -> str:
    """The flaws as they are typed: a flaw of another shape, from an order file, by the box round it."""
    unit, lines = Workshop.current().unit, []
    for outline in flaws:
        across, along = (sorted(parse_length(point[at], unit) for point in outline) for at in (0, 1))
        box = (across[0], along[0], across[-1] - across[0], along[-1] - along[0])
        lines.append(", ".join(print_length(side, unit, step=16) for side in box))
    return "\n".join(lines)


class PrintAndFlaws(PlainForm):
    """The fields; `prints()` gives what of them goes into the order file."""

    selvedge = LengthField(label="Selvedge", required=False, help_text="Each side’s. Half an inch where it is left empty.")
    repeat = LengthField(label="The print repeats along the cloth every", required=False)
    repeat_across = LengthField(label="The print repeats across the cloth every", required=False)
    match = forms.MultipleChoiceField(
        label="Pieces on which the print must fall alike", required=False, widget=forms.CheckboxSelectMultiple
    )
    first_motif = LengthField(
        label="From the left selvedge to the middle of the first motif", required=False, help_text="Folded, the fold runs through a motif."
    )
    motifs = MotifsField(
        label="Pieces that must show a whole motif",
        required=False,
        help_text="One a line, cut singly: the piece for its middle, or where on it, as sewn: from its inner edge, from its top. front, 0, 4",
    )
    flaws = FlawsField(
        label="Flaws and missing corners",
        required=False,
        help_text="One a line: from the left selvedge, from the cut end, how wide, how long. 12, 40, 3, 2",
    )

    def clean_selvedge(self):
        return above_nothing(self.cleaned_data["selvedge"])

    def clean(self):
        given = super().clean()
        if given.get("motifs") and not (given.get("repeat") or given.get("repeat_across")):
            self.add_error("motifs", "Write above how often the print repeats, along or across: a motif is placed by that.")
        return given

    def clean_repeat(self):
        return above_nothing(self.cleaned_data["repeat"])

    def clean_repeat_across(self):
        return above_nothing(self.cleaned_data["repeat_across"])

    def prints(self) -> dict:
        given, unit = self.cleaned_data, Workshop.current().unit
        lengths = {key: given[key] for key in ("selvedge", "repeat", "repeat_across", "first_motif")}
        found: dict = {key: with_unit(length.written, unit) for key, length in lengths.items() if length}
        return found | {key: given[key] for key in ("match", "motifs", "flaws") if given.get(key)}


def above_nothing(length):
    if length is not None and length.mm <= 0:
        raise ValidationError(f"“{length.written}” is no length. Leave it empty where there is none.")
    return length


def initial_of(cloth: Cloth) -> dict:
    found = dict(cloth.prints)
    return found | {"flaws": written_again(found.get("flaws", [])), "motifs": motifs_again(found.get("motifs", []))}


def names_to_match(order: Order, cloth: Cloth | None) -> list[tuple[str, str]]:
    """The pieces of the order's drafts that are cut from this cloth (from any, for one that is new)."""
    names: dict[str, None] = dict.fromkeys(cloth.prints.get("match", ()) if cloth else ())
    for garment in order.garments.select_related("draft", "cut_draft"):
        for piece in garment.sheet_draft.result["pieces"] if garment.sheet_draft else ():
            if cloth is None or any(cut["cloth"] == cloth.name for cut in piece["cut"]):
                names.setdefault(piece["name"])
    return [(name, name) for name in names]
