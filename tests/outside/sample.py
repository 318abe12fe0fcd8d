"""Which of many orders are drafted at every run, and which with --all-bodies only: a fixed choice, spread over sizes and kinds.

The smallest and the largest size are never left out, nor any kind of garment at either of them.
"""

from collections.abc import Callable

from tests.outside.bodies import SIZES

ENDS = (SIZES[0], SIZES[-1])


class Sample:
    """`everything` is set by --all-bodies before any test is read."""

    everything = False

    def has(self, size: str, turn: int) -> bool:
        """Both ends; of the sizes between them every third order. A `turn` that counts kinds and sizes gives each kind other sizes."""
        return self.everything or size in ENDS or turn % 3 == 0

    def by_turns(self, turn: int) -> bool:
        """Every second order, for those that are alike but for one choice."""
        return self.everything or turn % 2 == 0

    def of(self, orders: dict[str, dict], drafted: Callable[[str], bool]) -> dict[str, dict]:
        """The orders that are to be drafted, and as many of the others as bring a choice that else no garment of that kind has."""
        kept = {name: order for name, order in orders.items() if self.everything or drafted(name)}
        seen = set().union(*map(choices_of, kept.values()))
        for name, order in orders.items():
            if not choices_of(order) <= seen:
                kept[name] = order
                seen |= choices_of(order)
        return kept


def choices_of(order: dict) -> set[tuple]:
    """Each choice beside the kind of garment that it is made for."""
    choices = {}
    for key, value in order["garment"].items():
        choices |= {f"{key}.{part}": each for part, each in value.items()} if isinstance(value, dict) else {key: value}
    return {(choices.get("kind"), key, str(value)) for key, value in choices.items()}


SAMPLE = Sample()
