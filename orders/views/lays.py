"""How the cloths of an order are laid, and how much of each is needed."""

from decimal import Decimal

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from orders.cloth.laying import answer, draft_keys, drafts_of, laid
from orders.cloth.lays_page import lays_page
from orders.cloth.miscut import miscut_page
from orders.cloth.rows import cloths_shown, row_of
from orders.forms import ClothForm
from orders.models import Cloth, KeptLay
from orders.whole_order import whole_order
from orders.work.cutting_table import cut_of
from workshop.access import needs
from workshop.templatetags.workshop_tags import cloth as as_bought


@require_safe
@needs("see_work")
def lays(request: HttpRequest, number: str) -> HttpResponse:
    whole = whole_order(number, with_money=False)
    asked = request.GET.get("help", "")
    help_for = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 18 else None
    cloths = lays_page(whole, help_for=help_for)
    shown = {"order": whole.order, "cloths": cloths, "has_draft": bool(drafts_of(whole.garments))}
    return render(request, "orders/lays.html", shown | {"is_running": any(each.is_looked_for for each in cloths)})


@require_safe
@needs("see_work")
def needed(request: HttpRequest, number: str) -> HttpResponse:
    """Lay what is not laid yet: the order's page asks for its table of cloths, or is come back to."""
    whole = whole_order(number, with_money=False)
    answer(drafts_of(whole.garments), whole.cloths)
    if not request.htmx:
        return redirect(whole.order)
    shown = cloths_shown(whole.order, whole.cloths, draft_keys(whole.garments))
    return render(request, "orders/_cloths.html", {"order": whole.order, "cloths": shown})


@require_safe
@needs("edit_orders")
def try_cloth(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """What the cloth would need if it were as the form has it now; the cloth itself is not changed."""
    whole = whole_order(number, with_money=False)
    cloth = get_object_or_404(Cloth, pk=pk, order=whole.order)
    form = ClothForm(request.GET, order=whole.order, cloth=cloth)
    drafts = drafts_of(whole.garments)
    if not (form.is_valid() and drafts):
        return render(request, "orders/_cloth_answer.html", {})
    for name, value in form.values().items():
        setattr(cloth, name, value)
    [tried] = laid(drafts, [cloth])
    cloth.needs_mm, cloth.at_least_mm, cloth.not_laid = tried.needs, tried.at_least, tried.refused
    cloth.laid_for = cloth.laid_key(keys := [draft.pk for draft in drafts])
    takes = as_bought(tried.needs) if tried.needs is not None else ""
    return render(request, "orders/_cloth_answer.html", {"row": row_of(cloth, whole.order, keys), "takes": takes})


@require_safe
@needs("see_work")
def miscut(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """A piece of this lay is spoiled: what the rest of the cloth still gives. Nothing is written before it is asked."""
    whole = whole_order(number, with_money=False)
    by_key = {draft.pk: draft for draft in drafts_of(whole.garments)}
    kept = get_object_or_404(KeptLay, pk=pk, draft__in=list(by_key), lay__isnull=False)
    all_laid = laid(list(by_key.values()), whole.cloths)
    of = next((each for each in all_laid if kept.pk in [other.pk for other in each.kept]), None)
    if of is None:  # the cloth was changed since; its new lays are on the page
        return redirect("orders:lays", number)
    others = sum((Decimal(repr(float(each.lay["needs"]))) for each in of.kept if each.pk != pk and each.lay), Decimal(0))
    url = reverse("orders:miscut", args=[number, pk])
    garment = next(each for each in whole.garments if each.sheet_draft and each.sheet_draft.pk == kept.draft_id)
    shown = miscut_page(kept, garment, of.cloth, others_mm=others, asked=request.GET, url=url, ticked=cut_of(garment.sheet_draft, of.cloth.name))
    return render(request, "orders/miscut.html", {"order": whole.order, "shown": shown, "garment": garment})
