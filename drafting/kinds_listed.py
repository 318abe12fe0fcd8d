"""What `jobsheet --kinds` prints: each garment with its measures, choices, house rules, defaults and limits."""

from collections.abc import Iterable, Iterator

from clients.measures import BY_KEY
from drafting import order_keys as keys
from drafting.engine.body import ESTIMATED_BY_RULE
from drafting.engine.rules import EASES, HouseRule
from drafting.engine.spec import Kind, Option
from workshop.length import INCH, print_length

MM_PER_INCH = 25.4


def kinds_listed(kinds: Iterable[Kind]) -> Iterator[str]:
    """Line by line, lengths in inches."""
    for number, kind in enumerate(kinds):
        if number:
            yield ""
        yield f"{kind.name}: {kind.title}"
        yield "  measures needed"
        yield from (_measure(key) for key in kind.measures)
        yield "  measures estimated by rule where they are not given"
        yield from (_measure(key) for key in kind.optional_measures if key in ESTIMATED_BY_RULE)
        asked = [key for key in kind.optional_measures if key not in ESTIMATED_BY_RULE]
        if asked:
            yield "  measures that some choices ask for"
            yield from (_measure(key) for key in asked)
        yield "  choices (garment.…), the default first"
        yield from (_option(option) for option in kind.options)
        if any(option.key == "fit" for option in kind.options):
            yield "  ease at bust, waist and hip by fit, in"
            yield from (f"    {fit:<24}{', '.join(_inches(ease) for ease in eases)}" for fit, eases in EASES.items())
        yield "  house rules (garment.rules): default, limits, in"
        yield from (_rule(rule) for rule in kind.rules)
        yield "  limits"
        yield from (f"    {limit}" for limit in kind.limits)
    yield ""
    yield f"  cloth is for: {', '.join(keys.CLOTH_FOR)}"


def _measure(key: str) -> str:
    measure = BY_KEY[key]
    return f"    {key:<24}{measure.name}, {_inches(measure.low_in)} to {_inches(measure.high_in)} in"


def _option(option: Option) -> str:
    if option.is_length:
        blank = option.blank[:1].lower() + option.blank[1:].removesuffix(".")
        default = blank if option.default is None else print_length(option.default, INCH, with_unit=True)
        return f"    {option.key:<24}{option.title}: a length, {default}"
    values = [choice.value for choice in option.choices]
    ordered = sorted(values, key=lambda value: value != option.default)
    return f"    {option.key:<24}{option.title}: {', '.join(_word(value) for value in ordered)}"


def _word(value: object) -> str:
    """As an order file writes it; 1.0 is a number, though it equals True."""
    if value is None or isinstance(value, bool):
        return {True: "true", False: "false", None: "null"}[value]
    return f"{value:g}" if isinstance(value, float) else str(value)


def _rule(rule: HouseRule) -> str:
    if rule.default is None:
        default = "by the draft"
    else:
        default = f"{rule.default:g}" if rule.is_share else _inches(rule.default)
    low, high = (f"{limit:g}" if rule.is_share else _inches(limit) for limit in (rule.low, rule.high))
    return f"    {rule.key:<24}{rule.name}: {default}, {low} to {high}"


def _inches(value: float) -> str:
    return print_length(value * MM_PER_INCH, INCH, step=16)
