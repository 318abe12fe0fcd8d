"""Signing in and out, and setting the workshop up."""

from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_GET, require_POST

from workshop import people, throttle
from workshop.access import needs, open_to_all
from workshop.answering import form_page
from workshop.house_forms import OwnHandForm, OwnPasswordForm, SettingsForm, SetUpForm, SignInForm
from workshop.models import Person, Workshop


@open_to_all
@require_GET
def health(request: HttpRequest) -> HttpResponse:
    """For whatever watches over the server: the database answers."""
    Workshop.objects.exists()
    return HttpResponse("ok\n", content_type="text/plain")


@open_to_all
@never_cache
@form_page
@sensitive_post_parameters("password")
def sign_in(request: HttpRequest) -> HttpResponse:
    if Workshop.current() is None:
        return redirect("set-up")
    after = _page_after(request)
    if request.user.is_authenticated:
        return redirect(after)
    form = SignInForm(request.POST or None)
    if request.method != "POST" or not form.is_valid():
        status = 422 if request.method == "POST" else 200
        return render(request, "workshop/sign_in.html", {"form": form, "next": after}, status=status)
    who = {"name": form.cleaned_data["name"], "address": throttle.address_of(request)}
    wait = throttle.seconds_to_wait(**who, now=timezone.now())
    if wait:
        return _refuse_sign_in(request, form, after, wait=wait)
    person = authenticate(request, username=who["name"], password=form.cleaned_data["password"])
    if person is None:
        throttle.note_failure(**who, now=timezone.now())
        return _refuse_sign_in(request, form, after)
    throttle.note_success(**who)
    login(request, person)
    return redirect(after)


def _refuse_sign_in(request: HttpRequest, form: SignInForm, after: str, wait: int = 0) -> HttpResponse:
    said = {"form": form, "next": after, "wait": wait, "refused": True}
    response = render(request, "workshop/sign_in.html", said, status=429 if wait else 422)
    if wait:
        response.headers["Retry-After"] = str(wait)
    return response


def _page_after(request: HttpRequest) -> str:
    """Where to go once signed in: a page of ours, or Today."""
    wanted = request.POST.get("next") or request.GET.get("next") or "/"
    ours = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
    return wanted if ours else "/"


@open_to_all
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    logout(request)
    response = redirect("sign-in")
    response.headers["Clear-Site-Data"] = '"cache"'
    return response


@open_to_all
@never_cache
@form_page
@sensitive_post_parameters("password", "again")
def set_up(request: HttpRequest) -> HttpResponse:
    """The first page of a new workshop. Once there is one, it leads to the sign-in."""
    if Workshop.current() is not None:
        return redirect("sign-in")
    form = SetUpForm(request.POST or None, initial={"unit": "in", "currency": "GBP", "paper": "A4"})
    if request.method != "POST" or not form.is_valid():
        status = 422 if request.method == "POST" else 200
        return render(request, "workshop/set_up.html", {"form": form}, status=status)
    owner = _found(form.cleaned_data)
    if owner is None:
        return redirect("sign-in")
    login(request, owner)
    messages.success(request, f"{form.cleaned_data['workshop_name']} is set up.")
    return redirect("/")


@transaction.atomic
def _found(given: dict) -> Person | None:
    """The workshop's row and its owner, both or neither; None when somebody was quicker."""
    if Workshop.objects.exists():
        return None
    Workshop.objects.create(
        pk=1,
        name=given["workshop_name"],
        town=given["town"],
        unit=given["unit"],
        currency=given["currency"],
        paper=given["paper"],
    )
    return Person.objects.create_user(
        given["name"], password=given["password"], display_name=given["display_name"], role=people.OWNER
    )


@needs("run_workshop")
@form_page
def settings(request: HttpRequest) -> HttpResponse:
    form = SettingsForm(request.POST or None, instance=Workshop.current())
    if request.method != "POST" or not form.is_valid():
        status = 422 if request.method == "POST" else 200
        return render(request, "workshop/settings.html", {"form": form}, status=status)
    workshop = form.save(commit=False)
    workshop.house_rules = form.kept_rules()
    workshop.save(update_fields=["name", "town", "unit", "currency", "paper", "days_in", "good_for_days", "sixteenths", "house_rules"])
    messages.success(request, "Settings saved. New drafts follow them; drafts already made stay as they are.")
    return redirect("settings")


@needs("see_work")
@form_page
@sensitive_post_parameters("old", "password", "again")
def own_sign_in(request: HttpRequest) -> HttpResponse:
    """One's own page: a new password, left-handed keys."""
    hand = OwnHandForm(request.POST if "hand" in request.POST else None, instance=request.user)
    form = OwnPasswordForm(request.POST if "change" in request.POST else None, person=request.user)
    if hand.is_bound and hand.is_valid():
        request.user.left_handed = hand.cleaned_data["left_handed"]
        request.user.save(update_fields=["left_handed"])
        messages.success(request, "Saved.")
        return redirect("own-sign-in")
    if form.is_bound and form.is_valid():
        request.user.set_password(form.cleaned_data["password"])
        request.user.save(update_fields=["password"])
        update_session_auth_hash(request, request.user)
        messages.success(request, "Your password is changed. Other phones and computers must sign in again.")
        return redirect("own-sign-in")
    refused = request.method == "POST"
    return render(request, "workshop/own_sign_in.html", {"form": form, "hand": hand}, status=422 if refused else 200)
