"""What was not chosen gets the garment's default; what it has no choice for is refused by name."""

from __future__ import annotations

from dataclasses import replace

from ..errors import UnknownChoice
from ..spec import GarmentSpec, Kind


def with_defaults(spec: GarmentSpec, kind: Kind) -> GarmentSpec:
    """Return the spec with defaults for what was not chosen; raises UnknownChoice for what can't be drafted."""
    options = {option.key: option.default for option in kind.options}
    for option in kind.options:
        if option.key not in spec.options:
            continue
        value = spec.options[option.key]
        if option.choices and value not in [choice.value for choice in option.choices]:
            raise UnknownChoice(option.key, value, tuple(str(c.value) for c in option.choices))
        options[option.key] = value
    unknown = sorted(set(spec.options) - set(options))
    if unknown:
        raise UnknownChoice(unknown[0], spec.options[unknown[0]], ("to leave it out",), why=f"A {kind.title.lower()} has no such option.")
    return replace(spec, options=options)
