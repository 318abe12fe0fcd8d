"""One call of jobsheet: each order file read, drafted and written, or refused with everything that is wrong."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from drafting.brief import Brief, BriefError, read_brief
from drafting.drawing import draw
from drafting.engine.errors import DraftingError, UnknownChoice
from drafting.order_folder import RESULT, SHEET, result_bytes, write_together
from drafting.order_json import MOST_BYTES, NotAnOrderFile, load_order_file
from drafting.order_lays import add_lays
from drafting.order_section import shown
from drafting.paper.choice import NothingChosen
from drafting.paper.spread import DoesNotFit
from drafting.paper.wanted import Wanted
from drafting.sheets import CannotPrint, job_sheet
from workshop.length import print_length

ALL_WELL, NOT_USED, FAILED_CHECK = 0, 2, 3

Say = Callable[[str], Any]


class NotMade(Exception):
    """An order that nothing was written for: `problems`, one sentence each."""

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        super().__init__("; ".join(problems))


class OrderRun:
    """Makes order files one after another into one folder; remembers which orders it has written."""

    def __init__(
        self,
        out: Path,
        *,
        with_sheet: bool,
        with_lay: bool,
        say: Say,
        warn: Say,
        paper: str = "A4",
        wanted: Wanted | None = None,
        lay_seconds: float | None = None,
    ) -> None:
        self.out, self.with_sheet, self.with_lay, self.paper = out, with_sheet, with_lay, paper
        self.say, self.warn, self.wanted, self.lay_seconds = say, warn, wanted or Wanted(), lay_seconds
        self.written: dict[str, Path] = {}

    def make(self, path: Path) -> int:
        """Write one order's files; the status that it alone would give."""
        try:
            brief = self._read(path)
            result = self._draw(brief)
            if self.with_lay:
                add_lays(brief.as_order_file(), result, seconds=self.lay_seconds)
            self._write(brief, result)
        except NotMade as why:
            for problem in why.problems:
                self.warn(f"{shown_path(path)}: {problem}")
            return NOT_USED
        self.written[brief.order] = path
        for line in _remarks(result):
            self.warn(f"{brief.order}: {line}")
        self.say(f"{brief.order}: {shown_path(self.out / brief.order)}")
        return FAILED_CHECK if _failed(result) else ALL_WELL

    def _read(self, path: Path) -> Brief:
        try:
            with path.open("rb") as file:
                raw = file.read(MOST_BYTES + 1)
                if len(raw) > MOST_BYTES:
                    raw += file.read(50_000_000)
            brief = read_brief(load_order_file(raw))
        except (OSError, ValueError) as bad:
            if isinstance(bad, BriefError):
                raise NotMade(str(bad).split("\n")) from None
            if isinstance(bad, NotAnOrderFile):
                raise NotMade([str(bad)]) from None
            raise NotMade([f"The file can't be read: {_why(bad)}."]) from None
        if brief.order in self.written:
            earlier = shown_path(self.written[brief.order])
            raise NotMade([f"order: {shown(brief.order)} was already made from {earlier}. Give each its own number."])
        return brief

    def _draw(self, brief: Brief) -> dict[str, Any]:
        try:
            return draw(brief)
        except DraftingError as bad:
            where = f"garment.{bad.key}: " if isinstance(bad, UnknownChoice) else ""
            raise NotMade([where + bad.sentence(lambda mm: print_length(mm, brief.units, with_unit=True))]) from None

    def _write(self, brief: Brief, result: dict[str, Any]) -> None:
        files = {RESULT: result_bytes(result)}
        if self.with_sheet:
            files[SHEET] = self._sheet(brief, result)
        files |= self._beside(brief, result)
        try:
            write_together(self.out / brief.order, files)
        except OSError as bad:
            raise NotMade([f"Nothing was written in {shown_path(self.out / brief.order)}: {_why(bad)}."]) from None

    def _sheet(self, brief: Brief, result: dict[str, Any]) -> bytes:
        try:
            return job_sheet(brief.as_order_file(), result, workshop_name="", paper=self.paper)
        except CannotPrint as missing:
            raise NotMade([str(missing), "With --no-sheet result.json is written alone."]) from None

    def _beside(self, brief: Brief, result: dict[str, Any]) -> dict[str, bytes]:
        try:
            return self.wanted.files(brief.as_order_file(), result)
        except (CannotPrint, DoesNotFit, NothingChosen) as refused:
            raise NotMade([str(refused)]) from None


def _failed(result: dict[str, Any]) -> list[dict[str, Any]]:
    return [check for check in result["checks"] if not check["pass"]]


def _remarks(result: dict[str, Any]) -> Iterator[str]:
    for warning in result["warnings"]:
        yield warning["text"]
    for check in _failed(result):
        figure, limit = (f"{check[key]:.3g} {check['unit']}".strip() for key in ("figure", "limit"))
        yield f"NOT FOR CUTTING: {check['check']} comes to {figure}; right is at most {limit}."


def _why(bad: Exception) -> str:
    return getattr(bad, "strerror", None) or str(bad) or type(bad).__name__


def shown_path(path: Path) -> str:
    """The path as it can be printed anywhere."""
    return "".join(c if c.isprintable() and not 0xD800 <= ord(c) <= 0xDFFF else "�" for c in str(path))
