"""What every page has around it: the top with its words, who is signed in, the styles, and what a phone is told.

It is drawn from an `Around` and from nothing else, and kept in memory by it, so that it can't be out of date; drawing it anew
took longer than all else that a short page does.
"""

from functools import cached_property
from typing import NamedTuple

from django.http import HttpRequest
from django.middleware.csrf import get_token
from django.template.loader import render_to_string
from django.urls import NoReverseMatch, get_script_prefix, reverse
from django.utils.crypto import get_random_string
from django.utils.safestring import SafeString

from workshop import people
from workshop.few_kept import FewKept
from workshop.models import Workshop


class Around(NamedTuple):
    """All that the parts around a page are drawn from."""

    person: int | None  # nobody is signed in
    name: str
    role: str
    workshop: str
    town: str
    view: str  # the page's name, with its app's before it
    app: str
    prefix: str  # where the site is served from

    def may(self, capability: str) -> bool:
        return self.person is not None and people.may(self.role, capability)


class Word(NamedTuple):
    title: str
    url: str
    current: bool


class Drawn(NamedTuple):
    styles: str
    phone: str
    tray: str
    top: str
    foot: str


#: Word, its page, the app or the pages it stands for, the capability it takes.
WORDS = (
    ("Today", "today", {"today", "drafting:day-sheets"}, "see_work"),
    ("Calendar", "orders:calendar", {"orders:calendar", "orders:week", "orders:month", "orders:calendar-links"}, "see_work"),
    ("Clients", "clients:list", "clients", "see_clients"),
    ("Orders", "orders:list", {"orders", "drafting", "money"}, "see_work"),
    ("Settings", "settings", {"settings", "people", "person", "add-person", "orders:days-and-hours", "money:rules"}, "run_workshop"),
)
NAMED = frozenset().union(*(stands_for for _, _, stands_for, _ in WORDS if not isinstance(stands_for, str)))

#: What stands in a kept foot where each page's own token goes.
TOKEN = get_random_string(64)

_kept: FewKept[Drawn] = FewKept(512)  # some eighty pages, for each of six people


class Layout:
    """`{{ layout.top }}` and the others; worked out when a page asks for the first, because fragments ask for none."""

    def __init__(self, request: HttpRequest):
        self._request = request

    @cached_property
    def _drawn(self) -> Drawn:
        around = around_of(self._request)
        return _kept(around, lambda: drawn(around))

    @cached_property
    def token(self) -> str:
        """What each form of the page sends along, to show that it is ours."""
        return get_token(self._request)

    @property
    def foot(self) -> SafeString:
        return SafeString(self._drawn.foot.replace(TOKEN, self.token))

    def __getattr__(self, part: str) -> SafeString:
        if part not in Drawn._fields:
            raise AttributeError(part)
        return getattr(self._drawn, part)


def layout(request: HttpRequest) -> dict:
    return {"layout": Layout(request)}


def around_of(request: HttpRequest) -> Around:
    user, match, workshop = getattr(request, "user", None), request.resolver_match, Workshop.current()
    is_in = user is not None and user.is_authenticated
    return Around(
        person=user.pk if is_in else None,
        name=str(user) if is_in else "",
        role=user.role if is_in and user.is_active else "",
        workshop=workshop.name if workshop else "",
        town=workshop.town if workshop else "",
        view=match.view_name if match else "",
        app=match.app_name if match else "",
        prefix=get_script_prefix(),
    )


def drawn(around: Around) -> Drawn:
    told = {"around": around, "words": words(around), "to_measure": to_measure(around), "sees_work": around.may("see_work")}
    told |= {"role": dict(people.ROLES).get(around.role, ""), "csrf_token": TOKEN}
    return Drawn(*(render_to_string(f"parts/_{part}.html", told) for part in Drawn._fields))


def words(around: Around) -> list[Word]:
    """The words of the navigation that exist and that this person may use."""
    found = []
    for title, page, stands_for, capability in WORDS:
        url = address_of(page) if around.may(capability) else ""
        if url:
            named = {stands_for} if isinstance(stands_for, str) else stands_for
            found.append(Word(title, url, around.view in named or (around.app in named and around.view not in NAMED)))
    return found


def to_measure(around: Around) -> str:
    """Where *Take measures* leads: choose the client, or begin one."""
    clients = address_of("clients:list") if around.may("measure") else ""
    return f"{clients}?measure=1" if clients else ""


def address_of(page: str) -> str:
    """Nothing for a page that is not there: one app may be tested without the others."""
    try:
        return reverse(page)
    except NoReverseMatch:
        return ""
