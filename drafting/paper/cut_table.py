"""The cut list as a table for a spreadsheet: one row for each cloth that a piece is cut from."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from functools import partial

from drafting.cut_list import allowance_words, cut_count
from drafting.linework import clean
from drafting.paper.about import About, heading
from drafting.paper.choice import layer_of
from workshop.length import print_length

HEAD = ("order", "garment", "draft", "measures", "cloth", "layer", "number", "piece", "finished pieces", "cut", "allowance", "remarks")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet takes a cell that starts so for a formula, and may run it. Source: OWASP, CSV Injection."""


def as_csv(order_file: Mapping, result: Mapping, *, about: About | None = None) -> bytes:
    """Return the table, UTF-8 with the mark that spreadsheets know it by; every text is quoted, none is a formula."""
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(HEAD)
    for row in _rows(order_file, result, about or About()):
        writer.writerow([harmless(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue().encode("utf-8-sig")


def harmless(text: str) -> str:
    """Return the text as a cell that no spreadsheet runs; line breaks become spaces."""
    plain = " ".join(clean(text).replace("\t", " ").split("\n"))
    starts = text.lstrip().startswith(FORMULA) or text.startswith(FORMULA) or plain.lstrip().startswith(FORMULA)
    return f"'{plain}" if starts else plain


def _rows(order_file: Mapping, result: Mapping, about: About) -> Iterable[tuple[str | int, ...]]:
    head = heading(order_file, result, about)
    fmt = partial(print_length, unit=order_file["units"])
    for piece in result["pieces"]:
        for cut in piece["cut"]:
            yield (
                head.order, head.garment, head.draft, order_file["measured_on"], cut["cloth"], layer_of(cut), piece.get("number") or "",
                piece.get("title") or piece["name"], cut["count"], cut_count(piece, cut), allowance_words(piece, cut, fmt),
                "; ".join([*head.stamps, *piece.get("remarks", ())]),
            )  # fmt: skip
