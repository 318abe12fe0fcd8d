"""One act of making a garment, and the order in which acts can be done."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace


ACROSS = "it runs on across the "


def listed(words: Iterable[str]) -> str:
    """Return “a”, “a and b”, “a, b and c”, each once."""
    found = list(dict.fromkeys(words))
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} and {found[-1]}" if found else ""


@dataclass(frozen=True, slots=True)
class After:
    """`key` is the act that must be done first; `why` ends the sentence “first …, because”."""

    key: str
    why: str


@dataclass(frozen=True, slots=True)
class Act:
    """One thing to do at the table, the machine or the iron.

    `key` names it within its garment, whatever its place in the list; `does` is its kind (fuse, dart, stitch, bone …); `text`
    holds {0}, {1} … for the lengths in `figures` (mm); `seams` are those that it sews, `pieces` those that it handles;
    `after` says what must be done before; of acts that are free, the one of the lower `rank` comes first.
    """

    key: str
    does: str
    text: str
    figures: tuple[float, ...] = ()
    seams: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    after: tuple[After, ...] = ()
    rank: float = 0.0

    def written(self, fmt: Callable[[float], str]) -> tuple[str, str]:
        """Return text and reason with every length written by `fmt`."""
        return self.text.format(*(fmt(figure) for figure in self.figures)), self.why

    @property
    def why(self) -> str:
        """What it had to wait for, in words; "" where any order would do."""
        found = list(dict.fromkeys(each.why for each in self.after if each.why))
        crossed = [why.removeprefix(ACROSS) for why in found if why.startswith(ACROSS)]
        rest = [why for why in found if not why.startswith(ACROSS)]
        return "; ".join([*([f"{ACROSS}{listed(crossed)}"] if crossed else []), *rest])


def in_order(acts: Iterable[Act]) -> tuple[Act, ...]:
    """Return the acts so that each comes after all that it names; by rank, then as given, where that leaves a choice.

    Names of acts that this garment has not are dropped. Should acts wait for each other, the one of the lowest rank is
    let go first: a list that can be read is worth more than none, and the tests hold every kind to have no such ring.
    """
    given = [*acts]
    there = {act.key for act in given}
    given = [replace(act, after=tuple(each for each in act.after if each.key in there)) for act in given]
    waits = {act.key: {each.key for each in act.after} for act in given}
    followers: dict[str, list[str]] = {key: [] for key in waits}
    for key, names in waits.items():
        names.discard(key)
        for name in names:
            followers[name].append(key)
    place = {act.key: (act.rank, i) for i, act in enumerate(given)}
    by_key = {act.key: act for act in given}
    free = [(place[key], key) for key, names in waits.items() if not names]
    heapq.heapify(free)
    done: list[Act] = []
    left = dict(place)
    while left:
        key = heapq.heappop(free)[1] if free else min(left, key=left.__getitem__)
        if left.pop(key, None) is None:
            continue
        done.append(by_key[key])
        for follower in followers[key]:
            waits[follower].discard(key)
            if not waits[follower] and follower in left:
                heapq.heappush(free, (place[follower], follower))
    return tuple(done)
