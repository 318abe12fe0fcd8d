"""Taking a client's measures, and putting one right."""

from uuid import UUID, uuid4

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_http_methods

from clients.bundle import addresses
from clients.card import PREFIX, Card
from clients.forms import CorrectionForm, MeasuringForm
from clients.history import last_before
from clients.measures import BY_KEY
from clients.models import AlreadyReplaced, Client, Measuring, Reading, UnreadableMeasures, read_lengths
from clients.taking import keep_measures
from workshop.access import needs
from workshop.length import print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day


@needs("measure")
@require_http_methods(["GET", "POST"])
@gzip_page
def measure(request: HttpRequest, pk: int) -> HttpResponse:
    """The measuring card: the one named, today's as far as this person has taken it, or a new one."""
    client = get_object_or_404(Client, pk=pk)
    if request.method == "POST":
        measuring = _measuring_named(request.POST.get("token", ""), request, client)
        return _keep_all(request, measuring)
    if "card" in request.GET:
        measuring = _measuring_named(request.GET["card"], request, client)
    else:
        begun = client.measurings.begun_on(timezone.localdate(), by=request.user).with_readings()
        measuring = None if "anew" in request.GET else begun.first()
        measuring = measuring or Measuring(client=client, taken_by=request.user)
    return _card_page(request, measuring, MeasuringForm(instance=measuring))


def _keep_all(request: HttpRequest, measuring: Measuring) -> HttpResponse:
    """The whole card at once, as a browser without scripts sends it: all of it is kept, or none.

    With scripts, readings come one at a time, as they are made, to phone_views.take.
    """
    # The form is filled on a measuring of its own, so that nothing refused stays on the one at hand.
    form = MeasuringForm(request.POST, instance=Measuring(client=measuring.client, taken_by=request.user))
    typed = _typed(request)
    written = {key: text for key, text in typed.items() if text}
    errors = _left_empty(typed, measuring) | _refused(written)
    if not form.is_valid() or errors:
        return _card_page(request, measuring, form, typed=typed, errors=errors)
    kept = keep_measures(
        client=measuring.client, token=measuring.token, by=request.user,
        written=written, unit=_unit(), about=form.cleaned_data,
    )  # fmt: skip
    if kept is None:
        form.add_error(None, "No measure is written yet. Write at least one, or go back to the client.")
        return _card_page(request, measuring, form, typed=typed)
    messages.success(request, f"Measures of {day(kept.taken_on)} are in the book.")
    return redirect(measuring.client)


@needs("measure")
@require_http_methods(["GET", "POST"])
def correct(request: HttpRequest, pk: int) -> HttpResponse:
    """Put a reading right: another one takes its place and says why; the old one stays to be seen."""
    reading = get_object_or_404(Reading.objects.select_related("measuring__client", "measuring__taken_by"), pk=pk)
    if request.method == "GET" and (later := reading.replaced_by.first()):
        return redirect("clients:correct", later.pk)
    data = request.POST if request.method == "POST" else None
    form = CorrectionForm(data, reading=reading, unit=_unit(), initial={"written": request.GET.get("value", "")[:60]})
    context = {"reading": reading, "client": reading.measuring.client, "form": form, "in_unit": _unit()}
    if request.method == "GET" or not form.is_valid():
        return render(request, "clients/correct.html", context, status=422 if form.errors else 200)
    why = form.cleaned_data["why"]
    try:
        if form.cleaned_data["take_out"]:
            reading.take_out(by=request.user, why=why)
        else:
            reading.correct(form.cleaned_data["written"], _unit(), by=request.user, why=why)
    except AlreadyReplaced as refused:
        return render(request, "clients/correct.html", context | {"later": refused.later}, status=409)
    messages.success(request, f"{reading.measure.name} of {day(reading.measuring.taken_on)} is put right.")
    return redirect(reading.measuring.client)


def _card_page(
    request: HttpRequest, measuring: Measuring, form: MeasuringForm, *, typed=None, errors=None
) -> HttpResponse:
    card = Card(measuring, _earlier(measuring), _unit(), typed=typed, errors=errors)
    context = {"client": measuring.client, "measuring": measuring, "card": card, "form": form, "ours": addresses()}
    return render(request, "clients/measure.html", context, status=422 if form.errors or errors else 200)


def _measuring_named(name: str, request: HttpRequest, client: Client) -> Measuring:
    """The measuring that a card's token names, or one not begun yet under that token."""
    try:
        token = UUID(name)
    except ValueError:
        token = uuid4()
    measuring = Measuring.objects.with_readings().filter(token=token).first()
    if measuring is not None and measuring.client_id != client.pk:
        raise Http404("this card belongs to another client")
    return measuring or Measuring(client=client, taken_by=request.user, token=token)


def _typed(request: HttpRequest) -> dict[str, str]:
    """What stands in the card's fields, by measure."""
    return {key: request.POST[PREFIX + key].strip() for key in BY_KEY if PREFIX + key in request.POST}


def _left_empty(typed: dict[str, str], measuring: Measuring) -> dict[str, str]:
    """Measures that are in the book and were rubbed out here: a reading goes only with a reason."""
    current = measuring.current() if measuring.pk else {}
    left = {key: print_length(current[key].mm, _unit(), step=16) for key in typed if not typed[key] and key in current}
    advice = "Write the right figure, or take it out with “Put right”."
    return {key: f"{length} is in the book. {advice}" for key, length in left.items()}


def _refused(written: dict[str, str]) -> dict[str, str]:
    """What can't be read, by measure, each with what to do about it."""
    try:
        read_lengths(written, _unit())
    except UnreadableMeasures as refused:
        return {key: str(error) for key, error in refused.by_key.items()}
    return {}


def _earlier(measuring: Measuring) -> dict:
    return last_before(Measuring.objects.before(measuring).with_readings(), day)


def _unit() -> str:
    return Workshop.current().unit
