"""Read the bytes of an order file as strict JSON: what the standard leaves open is refused, not guessed."""

import json
from collections.abc import Iterable
from typing import Any

MOST_BYTES = 1_000_000
"""An order file is some hundred lines; a hundred times that is another file named by mistake."""

_BOMS = {
    b"\xef\xbb\xbf": "UTF-8 with a byte-order mark",
    b"\xff\xfe": "UTF-16",
    b"\xfe\xff": "UTF-16",
}


class NotAnOrderFile(ValueError):
    """The file could not be read as JSON; str() says why and what to do."""


def load_order_file(raw: bytes, *, most: int = MOST_BYTES) -> Any:
    """The value that the JSON holds; raises NotAnOrderFile with one sentence for a person."""
    if len(raw) > most:
        raise NotAnOrderFile(
            f"The file is {len(raw) / 1e6:.1f} MB; an order file is under {most // 1_000_000} MB. "
            "Name the order file itself."
        )
    for mark, name in _BOMS.items():
        if raw.startswith(mark):
            raise NotAnOrderFile(f"The file is saved as {name}. Save it as plain UTF-8, without a byte-order mark.")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as bad:
        line = raw.count(b"\n", 0, bad.start) + 1
        raise NotAnOrderFile(
            f"Line {line} holds the byte 0x{raw[bad.start]:02x}, which is not UTF-8. Save the file as UTF-8."
        ) from None
    if not text.strip():
        raise NotAnOrderFile("The file is empty. An order file is one JSON object.")
    return _parse(text)


def _parse(text: str) -> Any:
    twice: list[str] = []
    constants: list[_Constant] = []

    def constant(name: str) -> _Constant:
        constants.append(_Constant(name))
        return constants[-1]

    def unique_keys(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        seen = dict(pairs)
        if len(seen) < len(pairs):
            keys = [key for key, _ in pairs]
            twice.extend(dict.fromkeys(key for key in keys if keys.count(key) > 1) if len(keys) < 500 else keys[:1])
        return seen

    try:
        value = json.loads(text, object_pairs_hook=unique_keys, parse_constant=constant)
        found = _first_constant(value, "") if constants else None
    except json.JSONDecodeError as bad:
        raise NotAnOrderFile(f"Not JSON at line {bad.lineno}, column {bad.colno}: {bad.msg}.") from None
    except RecursionError:
        raise NotAnOrderFile("Lists and objects lie too deep in one another. An order file goes four deep.") from None
    except ValueError:  # a whole number of thousands of digits
        raise NotAnOrderFile("A number in the file has too many digits to read.") from None
    if twice:
        names = ", ".join(f"“{key[:40]}”" for key in twice[:10])
        raise NotAnOrderFile(f"Written twice in one object: {names}. Keep one of each.")
    if found:
        key, name = found
        where = f"{key}: I read {name}, which" if key else name
        raise NotAnOrderFile(f"{where} is not a number. Write the figure, or leave the key out.")
    return value


class _Constant(str):
    """NaN, Infinity or -Infinity where it stands in the file: Python reads them, JSON has no such numbers."""


def _first_constant(value: Any, key: str) -> tuple[str, str] | None:
    """The key under which the first of them stands, as problems name it (lists count from 1), and its name."""
    if isinstance(value, _Constant):
        return key, str(value)
    within: Iterable[tuple[str, Any]] = ()
    if isinstance(value, dict):
        within = ((f"{key}.{name[:40]}" if key else name[:40], each) for name, each in value.items())
    elif isinstance(value, list):
        within = ((f"{key}[{n}]", each) for n, each in enumerate(value, 1))
    return next((found for name, each in within if (found := _first_constant(each, name))), None)
