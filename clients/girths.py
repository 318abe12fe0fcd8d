"""How girths go together in people who were measured: lines fitted to an open data set.

Source: `bdims`, 260 women (G. Heinz, L. J. Peterson, R. W. Johnson, C. J. Kerk, "Exploring Relationships in Body
Dimensions", Journal of Statistics Education 11(2), 2003; as held by the R package openintro). The figures below are what
tests/tools/girths_of_bdims.py prints; the data themselves are not kept here. Lengths in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

#: A girth is pointed out when it is further from its line than this many times the scatter of the 260. They were younger
#: and more active than those who are sewn for, hence the widening. At most 1 of the 260 lies beyond.
TIMES, WIDER = Decimal(3), Decimal("1.25")


@dataclass(frozen=True, slots=True)
class Line:
    """`key` is usually `constant` + the sum of `shares` x `others`, give or take `scatter` (a standard deviation)."""

    key: str
    others: tuple[str, ...]
    constant: Decimal
    shares: tuple[Decimal, ...]
    scatter: Decimal

    @property
    def limit(self) -> Decimal:
        return TIMES * WIDER * self.scatter


def _line(key: str, others: tuple[str, ...], constant: str, shares: tuple[str, ...], scatter: str) -> Line:
    return Line(key, others, Decimal(constant), tuple(map(Decimal, shares)), Decimal(scatter))


LINES: tuple[Line, ...] = (
    _line("waist", ("high_bust", "hip"), "-311.2", ("0.7023", "0.4233"), "33.6"),
    _line("hip", ("waist", "height"), "122.2", ("0.7188", "0.2017"), "38.5"),
    _line("high_bust", ("waist", "height"), "254.3", ("0.6897", "0.0757"), "31.3"),
    _line("knee", ("hip", "height"), "-23.0", ("0.2617", "0.076"), "16.1"),
    _line("wrist", ("high_bust", "height"), "28.0", ("0.0814", "0.0319"), "6.2"),
)
