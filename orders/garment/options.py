"""A garment's choices, as its kind lists them: kept as plain texts by option, written nested in an order file."""

from drafting.engine.garments import KINDS

ASKED_FOR = {"bustier-gown": "Strapless gown (bustier)"}
"""The word by which most look for a kind, where its title is another."""


def kind_choices() -> list[tuple[str, str]]:
    return [(name, ASKED_FOR.get(name, kind.title)) for name, kind in KINDS.items()]


def defaults(kind) -> dict[str, str]:
    """What a new garment of that kind begins with."""
    return {option.key: default_text(option) for option in kind.options}


def default_text(option) -> str:
    """A length begins blank: it comes from the client's measures, and only without one from the garment's usual length."""
    return "" if option.is_length else as_text(option.default)


def as_text(value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "none" if value is None else str(value)


def is_idle(key: str, options: dict[str, str]) -> bool:
    """A length for a skirt or sleeve that is not there says nothing."""
    part, _, inside = key.partition(".")
    return part in ("skirt", "sleeve") and inside not in ("", "kind") and options.get(f"{part}.kind", "none") in ("", "none")


def belongs_elsewhere(option, options: dict[str, str]) -> bool:
    """A fraction belongs to a circle skirt only; with another kind it says nothing."""
    part, _, _ = option.key.partition(".")
    return bool(option.only_with) and options.get(f"{part}.kind") not in option.only_with.split()


def nested(kind, options: dict[str, str]) -> dict:
    """{"skirt.kind": "a-line", "skirt.length": "38"} as {"skirt": {"kind": "a-line", "length": "38"}}."""
    made: dict = {}
    for option in kind.options:
        written = options.get(option.key, "" if option.is_length else as_text(option.default))
        if written == "" or is_idle(option.key, options) or belongs_elsewhere(option, options):
            continue
        values = {as_text(choice.value): choice.value for choice in option.choices}
        part, _, inside = option.key.partition(".")
        if inside:
            made.setdefault(part, {})[inside] = values.get(written, written)
        else:
            made[part] = values.get(written, written)
    if made.get("sleeve", {}).get("kind") == "none":
        made["sleeve"] = None
    return made


def in_words(kind, options: dict[str, str]) -> list[tuple[str, str]]:
    """Each choice by its titles, for a page that only shows them."""
    told = []
    for option in kind.options:
        written = options.get(option.key, "" if option.is_length else as_text(option.default))
        if written == "" or is_idle(option.key, options) or belongs_elsewhere(option, options):
            continue
        titles = {as_text(choice.value): choice.title for choice in option.choices}
        told.append((option.title, titles.get(written, written)))
    return told


def rule_keys(kind) -> set[str]:
    return {rule.key for rule in kind.rules}
