"""python3 manage.py lay LAY.json --out FOLDER: lay any outlines on a cloth, without the web app or a database."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand

ALL_WELL, NOT_USED = 0, 2
MOST_SECONDS = 3600.0
MOST_BYTES = 50_000_000


class Command(BaseCommand):
    help = "Lay the outlines of a lay file on its cloth: writes FOLDER/lay.json and FOLDER/lay.svg."
    requires_system_checks: list[str] = []
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", metavar="LAY.json", help="the lay file, UTF-8 JSON")
        parser.add_argument("--out", metavar="FOLDER", help="where lay.json and lay.svg are written")
        parser.add_argument("--seconds", default="10", help="how long to look for a shorter lay (10)")
        parser.add_argument("--seed", type=int, default=1, help="another seed looks another way (1)")

    def handle(self, *args: Any, **options: Any) -> None:
        sys.exit(self.run_command(options))

    def run_command(self, options: dict[str, Any]) -> int:
        from drafting.order_run import shown_path

        path = Path(options["file"])
        if not options["out"]:
            self.stderr.write("lay: name --out FOLDER: manage.py lay LAY.json --out FOLDER")
            return NOT_USED
        try:
            seconds = float(options["seconds"])
            if not 0 <= seconds <= MOST_SECONDS:
                raise ValueError
        except ValueError:
            self.stderr.write(
                f"lay: --seconds: I read “{options['seconds']}”. Give seconds from 0 to {MOST_SECONDS:.0f}."
            )
            return NOT_USED
        try:
            lay, said = make(path, Path(options["out"]), seconds=seconds, seed=options["seed"])
        except NotLaid as bad:
            for problem in bad.problems:
                self.stderr.write(f"{shown_path(path)}: {problem}")
            return NOT_USED
        self.stdout.write(said)
        return ALL_WELL


class NotLaid(Exception):
    """Nothing was written: `problems`, one sentence each."""

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        super().__init__("; ".join(problems))


def make(path: Path, out: Path, *, seconds: float, seed: int) -> tuple[dict[str, Any], str]:
    """Lay a lay file and write both files; the entry and one line about it. Raises NotLaid."""
    from drafting.engine.errors import DraftingError
    from drafting.engine.lay import plan
    from drafting.lay_file import LayFileError, fmt_in, read_lay_file
    from drafting.lay_picture import lay_svg
    from drafting.order_folder import write_together

    try:
        file = read_lay_file(_load(path))
        lay = plan(file.cloth, file.pieces, seconds=seconds, seed=seed)
    except LayFileError as bad:
        raise NotLaid(str(bad).split("\n")) from None
    except DraftingError as bad:
        key = getattr(bad, "key", "pieces")
        at = [n for n, piece in enumerate(file.pieces, 1) if piece.name == getattr(bad, "piece", None)]
        where = f"pieces[{at[0]}].{key}" if at and "." not in key and key != "pieces" else key
        raise NotLaid([f"{where}: {bad.sentence(fmt_in(file.units))}"]) from None
    entry = lay.as_result()
    files = {
        "lay.json": (json.dumps(entry, ensure_ascii=False, allow_nan=False) + "\n").encode(),
        "lay.svg": lay_svg(entry, file.units, title=file.name).encode(),
    }
    try:
        write_together(out, files)
    except OSError as bad:
        raise NotLaid([f"Nothing was written in {out}: {bad.strerror or bad}."]) from None
    fmt = fmt_in(file.units)
    fits = {True: "it fits", False: "it cannot fit", None: "no lay found that fits, none ruled out"}[lay.fits_on_hand]
    said = f"{file.name}: {lay.layout}, {fmt(lay.length)} long, at least {fmt(lay.at_least)} for any lay"
    return entry, said + (f"; {fmt(lay.cloth.length)} on hand: {fits}" if lay.cloth.length is not None else "")


def _load(path: Path) -> Any:
    from drafting.order_json import NotAnOrderFile, load_order_file

    try:
        raw = path.read_bytes()
    except OSError as bad:
        raise NotLaid([f"The file can't be read: {bad.strerror or bad}."]) from None
    try:
        return load_order_file(raw, most=MOST_BYTES)
    except NotAnOrderFile as bad:
        said = str(bad)
        for order, lay in (
            ("An order file", "A lay file"),
            ("an order file", "a lay file"),
            ("order file", "lay file"),
        ):
            said = said.replace(order, lay)
        raise NotLaid([said]) from None
