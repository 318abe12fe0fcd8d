"""What the engine refuses, each error with what it read and what would do.

`sentence(fmt)` gives one sentence for a person; `fmt` turns millimetres into the workshop's own words.
"""

from __future__ import annotations

from collections.abc import Callable

Fmt = Callable[[float], str]


class DraftingError(Exception):
    """A draft that can't be right is refused. Children say what was read and the remedy."""

    def sentence(self, fmt: Fmt) -> str:
        """Return what went wrong and what to do, lengths written by `fmt`."""
        return str(self)


class MissingMeasure(DraftingError):
    """A measure that has no rule to estimate it was not given."""

    def __init__(self, keys: tuple[str, ...]):
        self.keys = keys
        super().__init__(f"missing: {', '.join(keys)}")

    def sentence(self, fmt: Fmt) -> str:
        names = ", ".join(key.replace("_", " ") for key in self.keys)
        return f"Not measured yet: {names}. Take {'it' if len(self.keys) == 1 else 'them'}, then draft again."


class ImpossibleMeasure(DraftingError):
    """A measure with which no right piece can be drawn.

    `text` may hold `{value}` and `{needed}`, both millimetres, which `sentence` writes out.
    """

    def __init__(self, measure: str, value: float, text: str, *, needed: float | None = None):
        self.measure, self.value, self.text, self.needed = measure, value, text, needed
        super().__init__(f"{measure} = {value:.2f} mm: {text}")

    def sentence(self, fmt: Fmt) -> str:
        needed = "" if self.needed is None else fmt(self.needed)
        return self.text.format(value=fmt(self.value), needed=needed)


class UnknownChoice(DraftingError):
    """A garment, an option or a pair of options that the engine can't draw, with what it can.

    `named` says option and values as the garment's form has them (garments/defaults.py); a length stays in mm for `sentence`.
    """

    def __init__(self, key: str, value: object, choices: tuple[str, ...], *, why: str = "", named: tuple[str, object, tuple[str, ...]] | None = None):
        self.key, self.value, self.choices, self.why = key, value, choices, why
        self.named = named or (key, value, choices)
        super().__init__(f"{key}: {value!r}")

    def sentence(self, fmt: Fmt) -> str:
        title, value, choices = self.named
        read = fmt(value) if isinstance(value, float) else value
        why = f" {self.why}" if self.why else ""
        return f"{title}: “{read}” can't be drafted here.{why} Choose {' or '.join(filter(None, (', '.join(choices[:-1]), choices[-1])))}."


class NoSolution(DraftingError):
    """A truing step found no value that makes two edges agree; `unknown` names it."""

    def __init__(self, unknown: str, low: float, high: float, remedy: str = "Check the measures around it."):
        self.unknown, self.low, self.high, self.remedy = unknown, low, high, remedy
        super().__init__(f"no {unknown} between {low:.3f} and {high:.3f}")

    def sentence(self, fmt: Fmt) -> str:
        return f"No {self.unknown} between {fmt(self.low)} and {fmt(self.high)} makes the two edges equal. {self.remedy}"


class OpenOutline(DraftingError):
    """The edges of a piece don't walk once round it."""

    def __init__(self, piece: str, edge: str, gap: float):
        self.piece, self.edge, self.gap = piece, edge, gap
        super().__init__(f"{piece}: edge {edge} starts {gap:.4f} mm from the end of the edge before it")
