"""Who may open the measure book's addresses."""

from tests.clients.book import fit_note, jpeg, make_client, measured
from tests.workshop.url_table import row


def _client(cast) -> list:
    return [cast.once("client", make_client).pk]


def _reading(cast) -> list:
    client = cast.once("client", make_client)
    return [cast.once("measured", lambda: measured(client, cast.people["owner"])).current()["waist"].pk]


def _fit_note(cast) -> list:
    client = cast.once("client", make_client)
    return [cast.once("fit note", lambda: fit_note(client, cast.people["owner"], photo=b"jpeg")).pk]


def _pictured_note(cast) -> list:
    client = cast.once("client", make_client)
    return [cast.once("pictured", lambda: fit_note(client, cast.people["owner"], photo=jpeg())).pk]


TABLE = {
    "clients:list": row("o s a", ""),
    "clients:add": row("o s", "o s"),
    "clients:show": row("o s a", "", _client),
    "clients:edit": row("o s", "o s", _client),
    "clients:measure": row("o s", "o s", _client),
    "clients:take": row("", "o s", _client),
    "clients:csv-all": row("o", ""),
    "clients:csv-out": row("o s", "", _client),
    "clients:csv-in": row("o s", "o s", _client),
    "clients:paper-card": row("o s a", "", _client),
    "clients:compare": row("o s a", "", _client),
    "clients:over-time": row("o s a", "", lambda cast: [*_client(cast), "waist"]),
    "clients:fit-note": row("o s", "o s", _client),
    "clients:fit-switch": row("", "o s", _fit_note),
    "clients:fit-photo": row("o s", "", _fit_note),
    "clients:fit-marks": row("o s", "o s", _pictured_note),
    "clients:who": row("o s a", ""),
    "clients:at-hand": row("o s a", ""),
    "clients:worker": row("all", ""),
    "clients:measuring-styles": row("all", "", lambda cast: ["x"]),
    "clients:measuring-scripts": row("all", "", lambda cast: ["x"]),
    "clients:manifest": row("all", ""),
    "clients:off-line": row("all", ""),
    "clients:correct": row("o s", "o s", _reading),
}
