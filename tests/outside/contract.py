"""The result file's contract, key by key, as a small schema of our own; a key may be added, none left out."""

import math
from collections.abc import Callable, Iterator
from typing import Any

Check = Callable[[Any, str], Iterator[str]]


def is_text(value: Any, path: str) -> Iterator[str]:
    if not isinstance(value, str) or not value.strip():
        yield f"{path}: {value!r} is no text"


def may_be_empty(value: Any, path: str) -> Iterator[str]:
    if not isinstance(value, str):
        yield f"{path}: {value!r} is no text"


def is_number(value: Any, path: str) -> Iterator[str]:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        yield f"{path}: {value!r} is no number"


def is_count(value: Any, path: str) -> Iterator[str]:
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        yield f"{path}: {value!r} is no count"


def is_flag(value: Any, path: str) -> Iterator[str]:
    if not isinstance(value, bool):
        yield f"{path}: {value!r} is neither true nor false"


def is_point(value: Any, path: str) -> Iterator[str]:
    if not isinstance(value, list) or len(value) != 2:
        yield f"{path}: {value!r} is no point"
        return
    for axis, figure in zip("xy", value, strict=True):
        yield from is_number(figure, f"{path}.{axis}")


def is_plainly_a_point(value: Any) -> bool:
    return type(value) is list and len(value) == 2 and type(value[0]) is type(value[1]) is float and math.isfinite(value[0] + value[1])


def one_of(*choices: Any) -> Check:
    def check(value: Any, path: str) -> Iterator[str]:
        if value not in choices or isinstance(value, bool) != any(isinstance(c, bool) and c == value for c in choices):
            yield f"{path}: {value!r} is none of {choices}"

    return check


def or_null(inner: Check) -> Check:
    def check(value: Any, path: str) -> Iterator[str]:
        if value is not None:
            yield from inner(value, path)

    return check


def list_of(inner: Check, *, least: int = 0) -> Check:
    def check(value: Any, path: str) -> Iterator[str]:
        if not isinstance(value, list) or len(value) < least:
            yield f"{path}: not a list of {least} or more"
            return
        if inner is is_point and all(map(is_plainly_a_point, value)):
            return  # the thousands of points of a result, without a path for each
        for number, item in enumerate(value):
            yield from inner(item, f"{path}[{number}]")

    return check


def map_of(inner: Check, *, keys: tuple[str, ...] = ()) -> Check:
    def check(value: Any, path: str) -> Iterator[str]:
        if not isinstance(value, dict):
            yield f"{path}: not an object"
            return
        yield from (f"{path}.{key}: missing" for key in keys if key not in value)
        for key, item in value.items():
            yield from inner(item, f"{path}.{key}")

    return check


def having(*, optional: dict[str, Check] | None = None, **needed: Check) -> Check:
    """An object with these keys; a trailing underscore is dropped from a name that Python keeps to itself."""
    checks = {key.rstrip("_"): inner for key, inner in needed.items()}

    def check(value: Any, path: str) -> Iterator[str]:
        if not isinstance(value, dict):
            yield f"{path}: not an object"
            return
        for key, inner in checks.items():
            if key not in value:
                yield f"{path}.{key}: missing"
            else:
                yield from inner(value[key], f"{path}.{key}")
        for key, inner in (optional or {}).items():
            if key in value:
                yield from inner(value[key], f"{path}.{key}")

    return check


LEVELS = ("chest", "bust", "under_bust", "waist", "hip")
is_line = list_of(is_point, least=2)
is_ring = list_of(is_point, least=3)
is_edge_ref = having(piece=is_text, edge=is_text)


def is_stretch(value: Any, path: str) -> Iterator[str]:
    if isinstance(value, dict) and "gap" in value:
        yield from is_number(value["gap"], f"{path}.gap")
    else:
        yield from having(piece=is_text, line=is_line, by=one_of("extent", "length"), count=is_count)(value, path)


is_piece = having(
    name=is_text,
    of=or_null(is_text),
    on_fold=is_flag,
    side=one_of("both", "left", "right"),
    cut=list_of(having(cloth=is_text, role=is_text, count=is_count, optional={"cut_line": is_ring})),
    net=is_ring,
    cut_line=is_ring,
    edges=list_of(having(name=is_text, line=is_line, allowance=is_number), least=3),
    grain=list_of(is_point, least=2),
    notches=list_of(
        having(
            edge=is_text,
            at=is_number,
            mark=one_of("single", "double"),
            mate=or_null(having(piece=is_text, edge=is_text, at=is_number)),
        )
    ),
    darts=list_of(having(point=is_point, legs=list_of(is_line, least=2))),
)

is_lay = having(
    cloth=is_text,
    width=is_number,
    usable=is_number,
    layout=one_of("open", "folded", "crosswise"),
    length=is_number,
    to_buy=is_number,
    on_hand=or_null(is_number),
    fits_on_hand=or_null(is_flag),
    used=is_number,
    at_least=is_number,
    placed=list_of(
        having(
            piece=is_text,
            outline=is_ring,
            mirrored=is_flag,
            turned=one_of(0, 180),
            layers=one_of(1, 2),
            gives=is_count,
            optional={"under": is_flag, "zone": is_text},
        ),
        least=1,
    ),
)

RESULT = having(
    order=is_text,
    engine=one_of("1"),
    units=one_of("mm"),
    measures=map_of(having(value=is_number, estimated=is_flag), keys=("bust", "under_bust", "waist", "hip")),
    levels=map_of(is_number, keys=LEVELS),
    side_levels=map_of(is_number, keys=LEVELS),
    girths=list_of(
        having(level=is_text, body=is_number, ease=is_number, finished=is_number, across=list_of(is_stretch, least=1)), least=2
    ),
    pieces=list_of(is_piece, least=1),
    seams=list_of(
        having(
            name=is_text,
            a=list_of(is_edge_ref, least=1),
            b=list_of(is_edge_ref, least=1),
            length_a=is_number,
            length_b=is_number,
            ease=is_number,
        ),
        least=1,
    ),
    bones=list_of(
        having(
            piece=is_text, from_=is_point, to=is_point, channel=is_number, bone=is_number, casing=is_number, count=is_count
        )
    ),
    lays=list_of(is_lay),
    materials=list_of(having(item=is_text, amount=is_number, unit=is_text, count=is_count)),
    steps=list_of(
        having(
            piece=is_text,
            number=is_count,
            text=is_text,
            marks=list_of(is_text),
            points=list_of(is_point),
            why=may_be_empty,
        ),
        least=1,
    ),
    warnings=list_of(having(code=is_text, text=is_text)),
    checks=list_of(having(check=is_text, pass_=is_flag, figure=is_number, limit=is_number, unit=may_be_empty), least=1),
)


def breaches(result: Any) -> list[str]:
    """Every place where a result departs from the contract."""
    return list(RESULT(result, "result"))
