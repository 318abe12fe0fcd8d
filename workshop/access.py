"""Deny by default: every view says which capability it needs, or that it is open to all.

    @needs("see_money")
    def owed(request): ...

A view with neither mark is refused to everybody, and `manage.py check` names it.
"""

from collections.abc import Callable
from functools import cached_property, wraps

from django.contrib.auth.views import redirect_to_login
from django.core.checks import Error, register
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import URLPattern, URLResolver, get_resolver
from django_htmx.http import HttpResponseClientRedirect

from workshop.models import Workshop
from workshop.people import CAPABILITIES, UnknownCapability

OPEN = "open to all"


def needs(capability: str) -> Callable:
    """Mark a view: whoever calls it must be signed in and have that capability."""
    if capability not in CAPABILITIES:
        raise UnknownCapability(capability)

    def mark(view: Callable) -> Callable:
        @wraps(view)
        def guarded(request: HttpRequest, *args, **kwargs) -> HttpResponse:
            if not request.user.is_authenticated:
                return to_sign_in(request)
            if not request.user.may(capability):
                raise PermissionDenied(capability)
            return view(request, *args, **kwargs)

        guarded.access = capability
        return guarded

    return mark


def open_to_all(view: Callable) -> Callable:
    """Mark a view that nobody needs to be signed in for: sign-in, set-up, health."""
    view.access = OPEN
    return view


def to_sign_in(request: HttpRequest) -> HttpResponse:
    """To the sign-in page and back again; a fragment's request takes its whole page along."""
    if getattr(request, "htmx", False):
        here = request.htmx.current_url_abs_path or "/"
        return HttpResponseClientRedirect(redirect_to_login(here).url)
    return redirect_to_login(request.get_full_path() if request.method == "GET" else "/")


class AccessMiddleware:
    """Refuses views without a mark, and sends everybody to set-up until there is a workshop."""

    def __init__(self, get_response: Callable):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with Workshop.kept():
            return self.get_response(request)

    def process_view(self, request: HttpRequest, view: Callable, args, kwargs) -> HttpResponse | None:
        access = getattr(view, "access", None)
        if access == OPEN:
            return None
        if Workshop.current() is None:
            return redirect("set-up")
        if not request.user.is_authenticated:
            return to_sign_in(request)
        if access is None:
            raise PermissionDenied("this view has no mark")
        return None


class May:
    """`{% if may.see_money %}`: for what a page shows; the view is what refuses."""

    def __init__(self, user):
        self._user = user

    @cached_property
    def _granted(self) -> frozenset[str]:
        user = self._user
        return user.capabilities if user is not None and user.is_authenticated else frozenset()

    def __getitem__(self, capability: str) -> bool:
        if capability not in CAPABILITIES:
            raise UnknownCapability(capability)
        return capability in self._granted

    def __getattr__(self, capability: str) -> bool:
        if capability.startswith("_"):
            raise AttributeError(capability)
        return self[capability]


def may(request: HttpRequest) -> dict:
    return {"may": May(getattr(request, "user", None))}


def workshop(request: HttpRequest) -> dict:
    return {"workshop": Workshop.current()}


@register()
def every_view_is_marked(app_configs, **kwargs) -> list[Error]:
    unmarked = [name for name, pattern in walk(get_resolver()) if not hasattr(pattern.callback, "access")]
    return [Error(f"The view of {name} says nothing about who may use it.", id="workshop.E001") for name in unmarked]


def walk(resolver: URLResolver, spaces: str = ""):
    """Every pattern below a resolver, with its full name (or its route, where it has none)."""
    for entry in resolver.url_patterns:
        if isinstance(entry, URLResolver):
            yield from walk(entry, spaces + (f"{entry.namespace}:" if entry.namespace else ""))
        elif isinstance(entry, URLPattern):
            yield spaces + (entry.name or str(entry.pattern)), entry
