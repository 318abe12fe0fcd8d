"""What a lay is refused for, each with what was read and the remedy. All are children of DraftingError."""

from __future__ import annotations

from ..errors import DraftingError, Fmt


class LayError(DraftingError):
    """A lay that can't be made: no search would help. `key` names what was read, in the lay file's words."""

    key = ""


class NothingToLay(LayError):
    """No piece was given, or none with a count."""

    key = "pieces"

    def sentence(self, fmt: Fmt) -> str:
        return "No piece is given to lay. Name at least one, with a count of 1 or more."


class BadCloth(LayError):
    """A figure of the cloth can't be worked with."""

    def __init__(self, key: str, text: str, *, value: float | None = None, other: float | None = None):
        self.key, self.text, self.value, self.other = f"cloth.{key}", text, value, other
        super().__init__(f"cloth.{key}: {value}: {text}")

    def sentence(self, fmt: Fmt) -> str:
        value, other = ("" if v is None else fmt(v) for v in (self.value, self.other))
        return self.text.format(value=value, other=other)


class BadPiece(LayError):
    """A piece whose outline, count or turns can't be laid; `near` is where on it, mm, filled into {x} and {y} of the text."""

    def __init__(self, piece: str, key: str, text: str, *, near: tuple[float, float] | None = None):
        self.piece, self.key, self.text, self.near = piece, key, text, near
        super().__init__(f"{piece}: {key}: {text}")

    def sentence(self, fmt: Fmt) -> str:
        where = self.near and {"x": fmt(self.near[0]), "y": fmt(self.near[1])}
        return f"{self.piece}: {self.text.format(**where) if where else self.text}"


class TooWide(LayError):
    """A piece that is wider than the cloth, however it may be turned; `needs` is the usable width that it wants, mm: on
    the fold, that of its half.
    """

    key = "cloth.width"

    def __init__(self, piece: str, *, needs: float, usable: float, folded: bool, selvedges: float, on_fold: bool = False):
        self.piece, self.needs, self.usable, self.folded, self.selvedges = piece, needs, usable, folded, selvedges
        self.on_fold = on_fold
        super().__init__(f"{piece} needs {needs:.2f} mm across, {usable:.2f} mm are there")

    @property
    def cloth_width(self) -> float:
        """The whole width of cloth that would take the piece, selvedges included, mm."""
        return self.needs * (2 if self.folded else 1) + self.selvedges

    def sentence(self, fmt: Fmt) -> str:
        how = " folded" if self.folded else ""
        said = f"{self.piece} is {fmt(self.needs)} wide and the cloth{how} gives {fmt(self.usable)} between the edges. "
        if self.folded and not self.on_fold and self.needs <= 2 * self.usable:
            return f"{said}It needs cloth {fmt(self.cloth_width)} wide folded: lay it open, take a wider cloth, or piece it."
        if self.folded:
            open_width = self.needs * (2 if self.on_fold else 1) + self.selvedges
            return f"{said}It needs cloth {fmt(open_width)} wide even laid open: take a wider cloth, or piece it."
        return f"{said}It needs cloth {fmt(self.cloth_width)} wide: take a wider cloth, or piece it."


class TooMany(LayError):
    """More pieces than one lay can hold."""

    key = "pieces"

    def __init__(self, count: int, most: int):
        self.count, self.most = count, most
        super().__init__(f"{count} pieces, at most {most}")

    def sentence(self, fmt: Fmt) -> str:
        return f"{self.count} pieces on one cloth; at most {self.most} are laid at once. Divide them over several lays."


class TooFine(LayError):
    """Outlines of so many points that no lay would end in time."""

    key = "outline"

    def __init__(self, piece: str, *, points: int, count: int, most: int):
        self.piece, self.points, self.count, self.most = piece, points, count, most
        super().__init__(f"{piece}: {points} points, {count} times")

    def sentence(self, fmt: Fmt) -> str:
        return (
            f"{self.piece}: its outline has {self.points:,} points{f', {self.count} times' if self.count > 1 else ''}, and with the "
            f"other pieces that is too many to lay. Outlines of up to {self.most} points are fine enough for cloth."
        )


class Unlayable(LayError):
    """A piece found no place on the cloth at any length, as where a print's rows leave it none."""

    key = "pieces"

    def __init__(self, piece: str):
        self.piece = piece
        super().__init__(f"{piece}: no place at any length")

    def sentence(self, fmt: Fmt) -> str:
        return (
            f"{self.piece} finds no place across the cloth where its print matches. Leave it out of the matched "
            "pieces, lay the cloth open or take a wider one."
        )


class LayDidNotHold(LayError):
    """The recheck with another library found a fault in a finished lay: it is not shown."""

    def __init__(self, fault: str):
        self.fault = fault
        super().__init__(fault)

    def sentence(self, fmt: Fmt) -> str:
        return f"The lay did not pass its recheck ({self.fault}) and is not shown. Lay again with another seed."
