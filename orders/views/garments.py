"""A garment's choices, and its drafts."""

from collections.abc import Callable

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from clients.models import Measuring
from orders import conflict
from orders.booking import settle_lining
from orders.cloth.laying import answer_now
from orders.garment.beginning import note_fit
from orders.garment.comparing import settle
from orders.garment.form import GarmentForm
from orders.garment.look import look
from orders.garment.making_draft import NotDrafted, keep_old_measures, make_draft
from orders.models import Garment
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from orders.views.orders import page_of
from workshop.access import needs
from workshop.templatetags.workshop_tags import day

MOVED_ON = "Somebody else changed this garment at the same moment. Look at it, then press again."


def garment_of(number: str, pk: int) -> Garment:
    return get_object_or_404(Garment.objects.select_related("order__client", "measuring"), pk=pk, order__number=number)


@require_POST
@needs("draft")
def choose(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """Keep the choices; with *Draft it*, make a draft of them at once."""
    garment = garment_of(number, pk)
    form = GarmentForm(request.POST, garment=garment)
    if not form.is_valid():
        return page_of(request, number, form=form, status=422)
    try:
        garment.version = conflict.version_read(request)
        keep_choices(garment, form, request.user)
    except ChangedMeanwhile:
        now = Garment.objects.select_related("order__client", "changed_by").get(pk=pk)
        return conflict.page(request, form, GarmentForm(garment=now), now, now.order)
    except NotNow as refused:
        messages.error(request, refused.reason)
        return redirect(garment.order)
    if request.POST.get("then") != "draft":
        messages.success(request, "The choices are kept.")
        return redirect(garment.order)
    return draft_now(request, garment)


@require_POST
@needs("draft")
def look_at(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """The pieces as they would be with these choices; nothing is kept."""
    garment = garment_of(number, pk)
    return render(request, "orders/_look.html", {"look": look(garment, request.POST), "garment": garment})


@transaction.atomic
def keep_choices(garment: Garment, form: GarmentForm, person) -> None:
    garment.refuse_if_cut()
    options, rules = form.options(), form.rules()
    is_new = (options, rules) != (garment.options, garment.rules)
    garment.options, garment.rules = options, rules
    garment.keep("options", "rules", by=person)
    if is_new:
        settle_lining(garment, person)
        garment.withdraw_sign_off(by=person)


@require_POST
@needs("draft")
def redraft(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """A new draft from the measures named, else from those that the garment has."""
    garment = garment_of(number, pk)
    return draft_now(request, garment, measuring=measuring_named(request, garment))


@require_POST
@needs("draft")
def keep_measures(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = garment_of(number, pk)
    measuring = measuring_named(request, garment)
    if measuring is None:
        return redirect(garment.order)
    return act(request, garment, lambda: keep_old_measures(garment=garment, measuring=measuring, by=request.user), "The old measures stay.")


@require_POST
@needs("draft")
def fits_well(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """It fits well, so that the next of its kind can begin from it; or not after all."""
    garment = garment_of(number, pk)
    fits = request.POST.get("fits") != "no"
    done = "Noted: it fits well. The next one can begin from it." if fits else "Noted: not after all."
    return act(request, garment, lambda: note_fit(garment=garment, fits=fits, by=request.user, today=timezone.localdate()), done)


def draft_now(request: HttpRequest, garment: Garment, measuring=None) -> HttpResponse:
    try:
        draft = make_draft(garment=garment, by=request.user, measuring=measuring)
    except NotDrafted as refused:
        form = GarmentForm(garment=garment_of(garment.order.number, garment.pk))
        return page_of(request, garment.order.number, form=form, refused=refused.texts, status=422)
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, MOVED_ON)
    else:
        answer_now(garment.order, garment.order.cloths.all())
        kept = f"Draft {draft.number} is kept."
        if draft.for_cutting:
            messages.success(request, f"{kept} All seams meet.")
        else:
            messages.error(request, f"{kept} A check failed: NOT FOR CUTTING.")
    return redirect(garment.order)


@require_POST
@needs("sign_off")
def settle_cut(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """The owner has seen what the newer measures mean for a cut garment."""
    garment = garment_of(number, pk)
    measuring = measuring_named(request, garment)
    if measuring is None:
        return redirect(garment.order)
    done = f"Settled: nothing more is said of the measures of {day(measuring.taken_on)}."
    return act(request, garment, lambda: settle(garment=garment, measuring=measuring, by=request.user), done)


def act(request: HttpRequest, garment: Garment, verb: Callable[[], object], done: str) -> HttpResponse:
    """Do it and say so, or say why it can't be done now; back to the order."""
    try:
        verb()
        messages.success(request, done)
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, MOVED_ON)
    return redirect(garment.order)


def measuring_named(request: HttpRequest, garment: Garment) -> Measuring | None:
    named = request.POST.get("measuring", "")
    if not (named.isascii() and named.isdigit() and len(named) < 18):
        return None
    return get_object_or_404(Measuring, pk=int(named), client=garment.order.client)
