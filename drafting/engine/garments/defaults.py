"""What was not chosen gets the garment's default; what it has no choice for is refused, in the words of its form."""

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
        name = unknown[0].replace(".", " ").replace("_", " ").capitalize()
        value, leave = spec.options[unknown[0]], ("to leave it out",)
        raise UnknownChoice(unknown[0], value, leave, why=f"It is not asked for this garment, {kind.title.lower()}.", named=(name, value, leave))
    return replace(spec, options=options)


def in_words(refused: UnknownChoice, kind: Kind) -> UnknownChoice:
    """Return a refusal that names option and values as the garment's form does: closes with, zip at the left side."""
    option = next((each for each in kind.options if each.key == refused.key), None)
    if option is None:
        return refused
    titles = {str(choice.value): choice.title for choice in option.choices}
    value = float(refused.value) if option.is_length else titles.get(str(refused.value), str(refused.value))
    choices = tuple(titles.get(choice, choice) for choice in refused.choices)
    return UnknownChoice(refused.key, refused.value, refused.choices, why=refused.why, named=(option.title, value, choices))
