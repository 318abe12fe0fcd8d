"""How measures go together: each rule is a sum of measures that must not be more than nothing.

Rules are data, not code, because the phone holds them too: what is odd is pointed out there at once, network or not, by
the same rules (static/js/odd.js; a test holds the two together). Limits are in millimetres and, unless a source is
named, common practice with no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from clients.girths import LINES, Line
from clients.measures import BY_KEY, LEFT, MM_PER_INCH, Measure
from workshop.length import print_length


def inches(value: str | int) -> Decimal:
    return Decimal(value) * MM_PER_INCH


#: Levels down the front nearer than this leave no room for a piece between them.
LEVELS_APART = inches("0.25")
#: A waist may be more than the hip, but seldom by more than this.
WAIST_OVER_HIP = inches(3)
#: Bust point to bust point is about a fifth of the bust; outside these parts of it, look again.
SPAN_LOW, SPAN_HIGH = Decimal("0.145"), Decimal("0.27")
#: The across measures, against shoulder tip to shoulder tip.
ACROSS_OVER, ACROSS_UNDER = inches("0.5"), inches(4)
#: How much longer the front may be than the back (the balance): the draft asks outside these.
BALANCE_LOW, BALANCE_HIGH = inches("-0.125"), inches("2.5")
#: The house rule's own default for the back neck.
BACK_NECK_DEPTH = inches("0.75")
#: Shoulder tip to side neck point, level and dropped, as the draft slopes them (about 20 degrees).
NECK_WIDTH, SLOPE = inches("2.75"), Decimal("0.36")
ARMHOLE_OVER_BUST = inches("0.5")
#: Left and right arm differ by less than this part of the right.
ARMS_APART = Decimal("0.1")

ONE_OF_TWO = "One of the two was read wrongly."
BOTH_ONCE_MORE = "Read both once more."


@dataclass(frozen=True, slots=True)
class Sum:
    """Shares of the rule's own measures, in their order, and a constant; in millimetres."""

    shares: tuple[Decimal | int, ...]
    constant: Decimal | int = 0

    def of(self, lengths: tuple[Decimal, ...]) -> Decimal:
        return sum((share * mm for share, mm in zip(self.shares, lengths, strict=True)), Decimal(self.constant))


@dataclass(frozen=True, slots=True)
class Case:
    """What is said when the sum is more than nothing (or is nothing, with `touching`).

    In `text`, {0} {1} … are the rule's measures and then `also`, printed in the workshop's unit.
    """

    excess: Sum
    text: str
    also: tuple[Sum, ...] = ()
    touching: bool = False

    def holds(self, lengths: tuple[Decimal, ...]) -> bool:
        excess = self.excess.of(lengths)
        return excess > 0 or (self.touching and excess == 0)


@dataclass(frozen=True, slots=True)
class Rule:
    """Measures that are held against each other; the first case that holds is said."""

    keys: tuple[str, ...]
    cases: tuple[Case, ...]

    def says(self, lengths: tuple[Decimal, ...], unit: str) -> str | None:
        for case in self.cases:
            if case.holds(lengths):
                said = (*lengths, *(each.of(lengths) for each in case.also))
                return case.text.format(*(print_length(mm, unit, step=16) for mm in said))
        return None


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two or three measures that don't go together, said in their own figures."""

    text: str
    keys: tuple[str, ...]


def contradictions(readings: Mapping[str, Decimal], unit: str) -> list[Contradiction]:
    """What the lengths (millimetres by measure) say against each other; empty when they agree."""
    found = []
    for rule in RULES:
        if all(key in readings for key in rule.keys):
            text = rule.says(tuple(readings[key] for key in rule.keys), unit)
            if text:
                found.append(Contradiction(text, rule.keys))
    return found


def related(key: str) -> set[str]:
    """The other measures that some rule holds this one against."""
    return {other for rule in RULES if key in rule.keys for other in rule.keys} - {key}


def for_the_phone() -> list[dict]:
    """The rules as the phone reads them: numbers, texts and measures' keys."""

    def numbers(each: Sum) -> list[float]:
        return [float(each.constant), *map(float, each.shares)]

    return [
        {
            "keys": rule.keys,
            "cases": [
                {"excess": numbers(case.excess), "text": case.text}
                | ({"also": [numbers(each) for each in case.also]} if case.also else {})
                | ({"touching": True} if case.touching else {})
                for case in rule.cases
            ],
        }
        for rule in RULES
    ]


def _levels(upper: str, lower: str, apart: Decimal) -> tuple[Case, ...]:
    below = f"{upper} ({{0}}) comes below the {lower} ({{1}}), down from the shoulder. {ONE_OF_TWO}"
    near = f"{upper} ({{0}}) and {lower} ({{1}}), down from the shoulder, are less than {{2}} apart. {BOTH_ONCE_MORE}"
    return Case(Sum((1, -1)), below), Case(Sum((1, -1), apart), near, (Sum((0, 0), apart),))


def _across(name: str) -> tuple[Case, ...]:
    over = f"{name} {{0}} is more than shoulder {{1}}, tip to tip. {BOTH_ONCE_MORE}"
    under = f"{name} {{0}} is {{2}} less than shoulder {{1}}. {BOTH_ONCE_MORE}"
    return Case(Sum((1, -1), -ACROSS_OVER), over), Case(Sum((-1, 1), -ACROSS_UNDER), under, (Sum((-1, 1)),))


def _part_of(part: str, whole: str) -> tuple[Case, ...]:
    return (Case(Sum((1, -1)), f"{part} {{0}} is not less than {whole} {{1}}. {ONE_OF_TWO}", touching=True),)


def _span() -> Iterator[Case]:
    for word, excess in (("narrow", Sum((-1, SPAN_LOW))), ("wide", Sum((1, -SPAN_HIGH)))):
        text = f"Bust span {{0}} is {word} for a bust of {{1}}: a fifth of it is {{2}}. Read it once more."
        yield Case(excess, text, (Sum((0, Decimal("0.2"))),))


def _balance() -> Iterator[Case]:
    fact = "Shoulder to waist {0} is {2} %s than nape to waist {1} with {3} for the back neck. " + BOTH_ONCE_MORE
    neck = Sum((0, 0), BACK_NECK_DEPTH)
    less, more = Sum((-1, 1), BACK_NECK_DEPTH), Sum((1, -1), -BACK_NECK_DEPTH)
    yield Case(Sum((-1, 1), BACK_NECK_DEPTH + BALANCE_LOW), fact % "less", (less, neck))
    yield Case(Sum((1, -1), -BACK_NECK_DEPTH - BALANCE_HIGH), fact % "more", (more, neck))


def _line(line: Line) -> Rule:
    """What 260 measured women say: a girth far from where the others put it."""
    off = f"{BY_KEY[line.key].name} {{0}} is {{%d}} %s than usual"
    beside = " and ".join(f"{BY_KEY[key].name.lower()} {{{n}}}" for n, key in enumerate(line.others, 1))
    text = f"{off} beside {beside}. Read the tape once more."
    usual = (1, *(-share for share in line.shares))
    cases = []
    for word, sign in (("more", 1), ("less", -1)):
        by = Sum(tuple(sign * share for share in usual), -sign * line.constant)
        said = text % (len(usual), word)
        cases.append(Case(Sum(by.shares, by.constant - line.limit), said, (by,)))
    return Rule((line.key, *line.others), tuple(cases))


def _left_and_right(left: Measure) -> Rule:
    """Two arms that differ by a tenth and more are more often a slip of the tape: common practice, no source."""
    words = f"{BY_KEY[left.right].name} {{1}} on the right, {{0}} on the left: {{2}} %s. {BOTH_ONCE_MORE}"
    more = Case(Sum((1, -(1 + ARMS_APART))), words % "more", (Sum((1, -1)),))
    return Rule((left.key, left.right), (more, Case(Sum((-1, 1 - ARMS_APART)), words % "less", (Sum((-1, 1)),))))


RULES: tuple[Rule, ...] = (
    Rule(("under_bust", "bust"), (Case(Sum((1, -1)), f"Under-bust {{0}} is more than bust {{1}}. {ONE_OF_TWO}"),)),
    Rule(
        ("high_bust", "bust"),
        (Case(Sum((1, -1)), "High bust {0} is more than bust {1}. True of some small busts; else read both once more."),),
    ),
    Rule(
        ("waist", "hip"),
        (Case(Sum((1, -1), -WAIST_OVER_HIP), f"Waist {{0}} is {{2}} more than hip {{1}}. {BOTH_ONCE_MORE}", (Sum((1, -1)),)),),
    ),
    Rule(("shoulder_to_bust", "shoulder_to_under_bust"), _levels("Bust", "under-bust", LEVELS_APART)),
    Rule(("shoulder_to_under_bust", "shoulder_to_waist"), _levels("Under-bust", "waist", LEVELS_APART)),
    Rule(("shoulder_to_bust", "shoulder_to_waist"), _levels("Bust", "waist", 2 * LEVELS_APART)),
    Rule(("bust_span", "bust"), tuple(_span())),
    Rule(("shoulder_to_waist", "nape_to_waist"), tuple(_balance())),
    Rule(("across_front", "shoulder"), _across("Across front")),
    Rule(("across_back", "shoulder"), _across("Across back")),
    Rule(
        ("armhole_depth", "shoulder_to_bust", "shoulder"),
        (
            Case(
                Sum((1, -1, SLOPE / 2), ARMHOLE_OVER_BUST - SLOPE * NECK_WIDTH),
                f"Armhole depth {{0}} brings the underarm down to the bust, {{1}} below the shoulder. {ONE_OF_TWO}",
            ),
        ),
    ),
    Rule(("wrist", "elbow"), _part_of("Wrist", "elbow")),
    Rule(("wrist", "upper_arm"), _part_of("Wrist", "upper arm")),
    Rule(("shoulder_to_elbow", "sleeve_length"), _part_of("Shoulder to elbow", "sleeve length")),
    Rule(("waist_to_hip", "waist_to_knee"), _part_of("Waist to hip", "waist to knee")),
    Rule(("waist_to_hip", "body_rise"), _part_of("Waist to hip", "body rise")),
    Rule(("knee", "thigh"), _part_of("Knee", "thigh")),
    Rule(("thigh", "hip"), _part_of("Thigh", "hip")),
    Rule(("neck", "waist"), _part_of("Neck", "waist")),
    *map(_left_and_right, LEFT),
    *map(_line, LINES),
)

