"""Making a garment's draft from its order, and choosing which measures it is made from."""

from django.db import transaction
from django.utils import timezone

from clients.measures import BY_KEY
from drafting.brief import BriefError, read_brief
from drafting.drawing import draw
from drafting.engine.errors import DraftingError
from drafting.engine.garments import KINDS
from drafting.models import KeptDraft
from orders.booking import newest_measuring
from orders.garment.order_file import order_file
from orders.models import Garment
from orders.stages import NotNow, Stage
from workshop.length import print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import plain_day

DECIDES_ONLY_THE_LAY = ("on_hand", "layout", "selvedge", "repeat", "repeat_across", "match", "motifs", "first_motif", "flaws")


class NotDrafted(Exception):
    """A draft that could not be made; each text names the measure or choice, and what to do."""

    def __init__(self, texts: list[str]):
        super().__init__(" ".join(texts))
        self.texts = texts


def make_draft(*, garment: Garment, by, measuring=None) -> KeptDraft:
    """A new kept draft, from the given measuring or the one the garment is pinned to, else the client's newest.

    Only this garment's sign-off is withdrawn. Raises NotDrafted and changes nothing where the figures can't be drawn; NotNow
    where it is not the time; ChangedMeanwhile where it was signed off, cut or changed while the draft was drawn.
    """
    garment.refuse_if_cut()
    order = garment.order
    if not order.is_open:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Nothing more is drafted for it.")
    garment.measuring = measuring or garment.measuring or newest_measuring(order.client)
    refuse_unless_measured(garment)
    file = order_file(garment)
    result = drawn(file)  # the slow part, before the database is locked
    with transaction.atomic():
        garment.draft = KeptDraft.keep(order_file=file, result=result, made_by=by, at=timezone.now())
        garment.draft_passed = garment.draft.for_cutting
        garment.materials = result["materials"]
        garment.keep("measuring", "draft", "draft_passed", "materials", by=by)
        garment.withdraw_sign_off(by=by)  # signed off or cut while the draft was drawn, it was not kept at all
        order.refresh_from_db()  # it may have been called off meanwhile
        if not order.is_open:
            raise NotNow(f"{order.number} is {order.get_stage_display()}. Nothing more is drafted for it.")
        if order.stage == Stage.BOOKED:
            order.stage = Stage.MEASURED
            order.keep("stage", by=by)
    return garment.draft


def refuse_unless_measured(garment: Garment) -> None:
    """Name, in one sentence, every measure that this kind of garment needs and nobody has taken."""
    if garment.measuring is None:
        raise NotDrafted([f"{garment.order.client.first_name} is not measured yet. Take the measures, then draft."])
    taken = garment.measuring.current()
    wanted = [key for key in KINDS[garment.kind].measures if key not in taken and key != "skirt_length"]
    if wanted:
        names = ", ".join(BY_KEY[key].name.lower() for key in wanted)
        taken_on = plain_day(garment.measuring.taken_on)
        raise NotDrafted([f"Not among the measures of {taken_on}: {names}. Take {them(wanted)}, then draft again."])


def them(keys: list[str]) -> str:
    return "it" if len(keys) == 1 else "them"


def what_is_behind(garment: Garment) -> str:
    """What was changed after the draft was made, in a few words; "" while the draft is of what stands now."""
    if garment.draft is None or garment.cut_draft_id or garment.measuring is None:
        return ""
    now, then = order_file(garment), garment.draft.order_file
    if now["garment"] != then["garment"]:
        return "choices or house rules"
    if [cut_from(cloth) for cloth in now["cloths"]] != [cut_from(cloth) for cloth in then["cloths"]]:
        return "cloths"
    if now.get("fit_notes", []) != then.get("fit_notes", []):
        return "fit notes"
    return "measures" if any(now.get(key) != then.get(key) for key in ("measures", "measures_left")) else ""


def cut_from(cloth: dict) -> dict:
    """What of a cloth decides what is cut and written on its sheet. What is on hand does not, nor the order of its uses."""
    decides = {key: value for key, value in cloth.items() if key not in DECIDES_ONLY_THE_LAY and value}
    return decides | {"for": sorted(cloth["for"])}


def drawn(file: dict) -> dict:
    try:
        return draw(read_brief(file))
    except BriefError as refused:
        raise NotDrafted(list(refused.problems)) from refused
    except DraftingError as refused:
        raise NotDrafted([refused.sentence(in_workshop_unit())]) from refused


def in_workshop_unit():
    unit = Workshop.current().unit
    return lambda mm: print_length(mm, unit)


def keep_old_measures(*, garment: Garment, measuring, by) -> None:
    """The newer measures were looked at and are not for this garment."""
    garment.refuse_if_cut()
    garment.kept_past = measuring
    garment.keep("kept_past", by=by)


def newer_measuring(garment: Garment, newest):
    """The client's newest measuring, where it is not the pinned one and nobody has decided about it; else None."""
    if newest is None or garment.measuring_id is None or garment.cut_draft_id:
        return None
    return None if newest.pk in (garment.measuring_id, garment.kept_past_id) else newest
