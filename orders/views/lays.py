"""How the cloths of an order are laid, and how much of each is needed."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_safe

from orders.cloth_rows import cloths_shown, row_of
from orders.forms import ClothForm
from orders.laying import answer, draft_keys, drafts_of, laid
from orders.lays_page import lays_page
from orders.models import Cloth
from orders.whole_order import whole_order
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
