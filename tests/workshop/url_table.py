"""Who may open which address: one row for every URL name, checked by test_every_url_by_role.py.

A row is `name: row(GET roles, POST roles)`, roles as "all" (also nobody signed in), "o s a", "o s", "o", or "" for
nobody (the view refuses that method with 405). `args` builds the address's arguments from the cast, in a test's
database: write a function `args(cast) -> list or dict`, where `cast` has `.people` (role -> Person) and whatever
it made before under the same name (`cast.once("client", make)`). `query(cast) -> dict` adds what follows the “?”.

What is checked: those allowed get neither 403 nor a way to the sign-in; the others get 403, and nobody signed in gets
the way to the sign-in. What the page then says is its own test's matter.
"""

from collections.abc import Callable
from typing import NamedTuple


class Row(NamedTuple):
    get: str
    post: str
    args: Callable
    query: Callable


def row(get: str, post: str, args: Callable = lambda cast: [], query: Callable = lambda cast: {}) -> Row:
    return Row(get, post, args, query)


def _somebody(cast) -> list:
    return [cast.people["apprentice"].pk]


WORKSHOP = {
    "health": row("all", ""),
    "sign-in": row("all", "all"),
    "sign-out": row("", "all"),
    "set-up": row("all", "all"),
    "own-sign-in": row("o s a", "o s a"),
    "settings": row("o", "o"),
    "people": row("o", ""),
    "add-person": row("o", "o"),
    "person": row("o", "o", _somebody),
    "give-password": row("", "o", _somebody),
    "let-in": row("", "o", _somebody),
}

# Each app keeps its rows beside its own tests, as TABLE in tests/<app>/url_rows.py.
TABLE = dict(WORKSHOP)
for _app in ("clients", "drafting", "orders"):
    try:
        _rows = __import__(f"tests.{_app}.url_rows", fromlist=["TABLE"])
    except ModuleNotFoundError as missing:
        if missing.name not in (f"tests.{_app}.url_rows", f"tests.{_app}"):
            raise
        continue
    TABLE.update(_rows.TABLE)
