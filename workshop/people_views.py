"""The people of the workshop: who signs in, and what they may do."""

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_GET, require_POST

from workshop.access import needs
from workshop.answering import form_page
from workshop.house_forms import AddPersonForm, GivePasswordForm, PersonForm
from workshop.models import Person
from workshop.people import ROLE_MEANS


@needs("run_workshop")
@require_GET
def people(request: HttpRequest) -> HttpResponse:
    everyone = Person.objects.order_by("-is_active", "display_name", "username")
    return render(request, "workshop/people.html", {"people": everyone, "role_means": ROLE_MEANS})


@needs("run_workshop")
@form_page
@sensitive_post_parameters("password", "again")
def add_person(request: HttpRequest) -> HttpResponse:
    form = AddPersonForm(request.POST or None)
    if request.method != "POST" or not form.is_valid():
        status = 422 if request.method == "POST" else 200
        return render(request, "workshop/add_person.html", {"form": form}, status=status)
    given = form.cleaned_data
    person = Person.objects.create_user(
        given["name"], password=given["password"], display_name=given["display_name"], role=given["role"]
    )
    messages.success(request, f"{person} can sign in as “{person.username}”.")
    return redirect("people")


@needs("run_workshop")
@form_page
def person(request: HttpRequest, pk: int) -> HttpResponse:
    somebody = get_object_or_404(Person, pk=pk)
    return _name_and_role(request, somebody) if request.method == "POST" else _page(request, somebody)


@transaction.atomic
def _name_and_role(request: HttpRequest, somebody: Person) -> HttpResponse:
    form = PersonForm(request.POST, instance=somebody)
    if not form.is_valid():
        return _page(request, Person.objects.get(pk=somebody.pk), form=form)
    somebody.save(update_fields=["display_name", "role"])
    messages.success(request, f"{somebody} is {somebody.get_role_display()} now.")
    return redirect("people")


@needs("run_workshop")
@require_POST
@sensitive_post_parameters("password", "again")
def give_password(request: HttpRequest, pk: int) -> HttpResponse:
    somebody = get_object_or_404(Person, pk=pk)
    form = GivePasswordForm(request.POST, person=somebody)
    if not form.is_valid():
        return _page(request, somebody, password_form=form)
    somebody.set_password(form.cleaned_data["password"])
    somebody.save(update_fields=["password"])
    messages.success(request, f"{somebody} has a new password, and is signed out everywhere.")
    return redirect("people")


@needs("run_workshop")
@require_POST
@transaction.atomic
def let_in(request: HttpRequest, pk: int) -> HttpResponse:
    """Stops somebody's sign-in, or allows it again. The only owner can't be shut out."""
    somebody = get_object_or_404(Person, pk=pk)
    if somebody.is_last_owner():
        messages.error(request, f"{somebody} is the only owner. Make somebody else an owner first.")
        return redirect(somebody)
    somebody.is_active = request.POST.get("may_sign_in") == "yes"
    somebody.save(update_fields=["is_active"])
    messages.success(request, f"{somebody} can sign in again." if somebody.is_active else f"{somebody} can't sign in.")
    return redirect("people")


def _page(request: HttpRequest, somebody: Person, *, form=None, password_form=None) -> HttpResponse:
    shown = {
        "person": somebody,
        "form": form or PersonForm(instance=somebody),
        "password_form": password_form or GivePasswordForm(person=somebody),
    }
    return render(request, "workshop/person.html", shown, status=422 if form or password_form else 200)
