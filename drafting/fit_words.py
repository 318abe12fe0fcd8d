"""Fit notes as a sheet says them: what was drawn into the pieces."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from clients.fit_places import BOTH, BY_PLACE
from drafting.linework import clean


def fit_notes_drawn(result: Mapping[str, Any], fmt: Callable[[float], str]) -> Iterator[str]:
    """“Drawn in from her fitting: take in ¼ at the side waist, left.”; what is not drawn in stands among the warnings."""
    for note in result.get("fit_notes", ()):
        if note["drawn"]:
            yield f"Drawn in, from the fitting: {note_in_words(note, fmt)}."


def note_in_words(note: Mapping[str, Any], fmt: Callable[[float], str]) -> str:
    """“take in ¼ at the side waist, left”; `fmt` writes mm."""
    place = BY_PLACE.get(note["place"])
    more = note["amount"] > 0
    act = place.act(1 if more else -1) if place else ("let out" if more else "take in")
    side = "" if note["side"] == BOTH else f", {note['side']}"
    return f"{act} {fmt(abs(note['amount']))} at the {clean(note['place'])}{side}"
