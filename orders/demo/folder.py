"""The demo's data folder: a database dated to today, and the day's job sheets as files."""

import contextlib
import hashlib
from collections.abc import Callable
from datetime import date
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import connection

from orders.cloth.laying import answer_now
from orders.demo import book
from orders.models import Order
from orders.paper.printing import NothingDrafted, order_sheets
from orders.stages import Stage
from workshop.locks import if_free, only_one

SERVING = ".serving"
PREPARING = ".preparing"
LOADED = ".loaded"


def prepare(today: date, *, may_replace: bool, say: Callable[[str], None]) -> None:
    """Make the demo's database if it is missing or of another version of the program; date it to today.

    `may_replace` is False while another process has its pages open: then a database of another version stays.
    """
    folder = Path(settings.DATA)
    mark, wanted = folder / LOADED, [edition(), today.isoformat()]
    with only_one(folder / PREPARING, "Another run is preparing the demo; waiting for it …"):
        found = mark.read_text(encoding="ascii").split() if mark.exists() and database().exists() else None
        if found == wanted:
            return
        if found and found[:1] != wanted[:1]:
            if not may_replace:
                say("The demo is open in another window, made by another version of the program. Close that one first.")
                return
            say("The demo is made anew for this version of the program; what was tried in the old one is gone.")
        if not found or found[:1] != wanted[:1]:
            clear(folder)
            call_command("migrate", interactive=False, verbosity=0)
        book.load(today)
        lay_cloths()
        mark.write_text("\n".join(wanted), encoding="ascii")


def lay_cloths() -> None:
    """What the cloths of orders before their cutting need, so that Today can tell which are short."""
    for order in Order.objects.filter(stage=Stage.MEASURED):
        answer_now(order, order.cloths.all())


def database() -> Path:
    return Path(settings.DATABASES["default"]["NAME"])


def edition() -> str:
    """What the loaded data depends on besides the day: what the demo holds, and the shape of the database."""
    root = Path(settings.BASE_DIR)
    found = hashlib.sha256()
    for path in sorted([*root.glob("orders/demo/*.py"), *root.glob("*/migrations/0*.py")]):
        found.update(path.read_bytes())
    return found.hexdigest()


def clear(folder: Path) -> None:
    connection.close()
    for name in (LOADED, *(database().name + ending for ending in ("", "-journal", "-wal", "-shm"))):
        (folder / name).unlink(missing_ok=True)


@contextlib.contextmanager
def serving():
    """Held while the demo's pages are open; gives whether this is the only process that has them open."""
    with if_free(Path(settings.DATA) / SERVING) as alone:
        yield alone


def print_sheets(today: date) -> list[Path]:
    """Write the job sheets of every drafted order to cut by today, under the order's number; returns the files.

    Raises CannotPrint where this machine can't print.
    """
    folder = Path(settings.DATA) / "sheets"
    folder.mkdir(exist_ok=True)
    written = []
    for order in to_cut(today):
        with contextlib.suppress(NothingDrafted):
            paper = order_sheets(order)
            written.append(keep(paper, folder / f"{order.number}.pdf"))
    for old in set(folder.iterdir()) - set(written):
        old.unlink()
    return written


def to_cut(today: date) -> list[Order]:
    found = Order.objects.select_related("client").with_work()
    return list(found.to_cut(today).order_by("cut_on", "serial"))


def keep(paper: bytes, path: Path) -> Path:
    part = path.with_suffix(".part")
    part.write_bytes(paper)
    return part.replace(path)
