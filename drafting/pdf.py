"""The press: trusted CSS and fonts kept ready, HTML in, PDF out. It fetches nothing but data: addresses.

WeasyPrint is imported on first use: it costs half a second, and without its library Pango it can't be imported at all.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from io import BytesIO
from pathlib import Path
from threading import Lock
from typing import Any

from django.conf import settings

from drafting.ink import Drawings

PAPERS = {"A4": "210mm 297mm", "Letter": "8.5in 11in"}


ONE_AT_A_TIME = Lock()
"""Fonts are shared by all sheets of a process, and nobody promises that two threads may set text with them at once."""


class CannotPrint(Exception):
    """Paper can't be printed here; the message says what is missing and how to put it in."""


def install_line() -> str:
    """Return the command that puts in the library that printing needs, for this kind of machine."""
    if sys.platform == "darwin":
        return "brew install pango"
    if sys.platform == "win32":
        return "pacman -S mingw-w64-ucrt-x86_64-pango (in MSYS2)"
    return "apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"


@cache
def _weasyprint() -> Any:
    """Return the module; raises CannotPrint where one of its libraries is missing."""
    try:
        with _left_out("lxml"):
            import weasyprint
    except OSError as missing:
        raise CannotPrint(
            "The library Pango is missing, so sheets can't be printed here; all else works. "
            f"Put it in with: {install_line()}"
        ) from missing
    return weasyprint


@contextmanager
def _left_out(name: str) -> Iterator[None]:
    """Let what is imported meanwhile do without a module that it only takes where it finds it.

    fontTools reads lxml for letters that are pictures in colour. Our fonts have none, and it is 4 MiB of a pattern's peak.
    """
    there = name in sys.modules
    if not there:
        sys.modules[name] = None
    try:
        yield
    finally:
        if not there:
            del sys.modules[name]


@cache
def _fetchers() -> tuple[Any, Any]:
    """Return the fetcher for pages (data: only) and the one for our own stylesheets and fonts (files too)."""
    fetcher = _weasyprint().urls.URLFetcher
    return fetcher(allowed_protocols=("data",)), fetcher(allowed_protocols=("file", "data"))


@cache
def _fonts() -> Any:
    from weasyprint.text.fonts import FontConfiguration

    return FontConfiguration()


@cache
def _stylesheet(name: str) -> Any:
    """Return one of our own stylesheets, parsed; its fonts are read here, once a process."""
    path = Path(settings.BASE_DIR) / "static" / "css" / name
    return _weasyprint().CSS(filename=str(path), font_config=_fonts(), url_fetcher=_fetchers()[1])


@cache
def _page_kind() -> Any:
    """Return the press's kind of page without its rules for list markers and footnotes, which match every element there is.

    None of our papers has either, and the rules take an eighth of a job sheet's time.
    """
    weasyprint = _weasyprint()
    own = (Path(weasyprint.__file__).parent / "css" / "html5_ua.css").read_text(encoding="utf-8")
    lean = weasyprint.CSS(string="\n".join(rule for rule in own.splitlines() if not rule.startswith("::")))

    class Page(weasyprint.HTML):
        def _ua_stylesheets(self, forms: bool = False) -> list:
            return [lean]

    return Page


def press(html: str, *, paper: str) -> bytes:
    """Return the PDF of a page of ours on `paper` (A4 or Letter), set to print at its true size.

    Raises CannotPrint where Pango is missing, ValueError for a paper that isn't known.
    """
    if paper not in PAPERS:
        raise ValueError(f"paper must be one of {', '.join(PAPERS)}, not {paper!r}")
    return press_sized(html, size=PAPERS[paper], style="sheet.css")


def press_sized(html: str, *, size: str, style: str, whole: str = "") -> bytes:
    """The same on paper of any size (two CSS lengths) in another of our stylesheets. Raises CannotPrint.

    `whole` is the size of the pages that the style calls so, where it has any.
    """
    weasyprint = _weasyprint()
    with ONE_AT_A_TIME:
        page = _page_kind()(string=html, url_fetcher=_fetchers()[0], base_url="data:,")
        sizes = f"@page {{ size: {size} }}" + (f" @page whole {{ size: {whole} }}" if whole else "")
        sized = weasyprint.CSS(string=sizes, font_config=_fonts(), url_fetcher=_fetchers()[1])
        fonts = _fonts()
        return page.write_pdf(
            stylesheets=[_stylesheet(style), sized], font_config=fonts, finisher=_at_true_size, cache=Drawings(fonts)
        )


def _at_true_size(document: Any, pdf: Any) -> None:
    """Ask the print dialogue not to fit the page: a drawing to scale must stay to scale."""
    import pydyf

    pdf.catalog["ViewerPreferences"] = pydyf.Dictionary({"PrintScaling": "/None"})


def joined(papers: Iterable[bytes]) -> bytes:
    """Return one PDF of all of them, in order; raises ValueError where there are none."""
    import pikepdf

    with pikepdf.new() as whole, ExitStack() as opened:
        for paper in papers:
            whole.pages.extend(opened.enter_context(pikepdf.open(BytesIO(paper))).pages)
        if not len(whole.pages):
            raise ValueError("There are no sheets to join.")
        whole.Root.ViewerPreferences = pikepdf.Dictionary(PrintScaling=pikepdf.Name("/None"))
        return saved(whole)


def saved(pdf: Any) -> bytes:
    """Return an open pikepdf document as bytes; the same document gives the same bytes."""
    import pikepdf

    out = BytesIO()
    pdf.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()
