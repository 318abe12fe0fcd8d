"""First answers from a few orders of placing, then a seeded local search over the order with late acceptance.

Late acceptance: a change is taken when it is no worse than the lay of a fixed number of tries ago (Burke and Bykov, 2017).
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from .clock import Clock
from .place import Layer, Places, Table, lay_in_order

MEMORY = 30
"""How many tries ago the lay is compared with."""

TAIL = 0.02
"""Weight of the mean end of all pieces beside the length itself: among equal lengths the emptier end is better."""


def first_orders(table: Table) -> Iterator[list[int]]:
    """Yield a few orders in which dressmakers and packers begin: the largest, longest, widest first."""
    shapes = table.task.shapes
    of = [shapes[ways[0]] for ways in table.shape_of]
    keys = (
        lambda i: (-of[i].area,),
        lambda i: (-of[i].long, -of[i].wide),
        lambda i: (not table.task.things[i].on_fold, -of[i].long),
        lambda i: (-of[i].wide, -of[i].long),
        lambda i: (-(of[i].long + of[i].wide),),
        lambda i: (-of[i].long * of[i].wide,),
    )
    for key in keys:
        yield sorted(range(table.count), key=key)


def first_answer(table: Table, clock: Clock, *, turning: bool = False) -> tuple[Places, list[int]] | None:
    """Return the best lay of the first orders and its order. `turning` tries every way of each piece, else the first alone."""
    best = None
    ways = None if turning else [0] * table.count
    for phase in table.task.phases[:4]:
        for order in first_orders(table):
            places = lay_in_order(table, order, ways, phase, over=clock.over if best or clock.used > 0 else None)
            if places is None:
                return best
            clock.tick()
            if best is None or places.length < best[0].length - 1e-6:
                best = places, order
                clock.found(places.length)
    return best


class Sequence:
    """The search's state: an order, each thing's way, and the lay they make."""

    def __init__(self, table: Table, places: Places, order: list[int], rng: random.Random):
        self.table, self.rng = table, rng
        self.order, self.ways, self.phase = list(order), [int(way) for way in places.way], places.phase
        self.layer = Layer(table, self.phase)
        self.ends: list[float] = []
        self.places: list[tuple[int, float]] = []
        self.cost = self._lay(0, self.order, self.ways, float("inf")) or float("inf")
        self.best, self.best_cost = self._kept(), self.cost

    def run(self, clock: Clock, until: float, tries: int) -> Places:
        """Search until `until` CPU seconds or `tries` tries; return the shortest lay met."""
        memory = [self.cost] * MEMORY
        if self.table.count < 2 and all(len(ways) < 2 for ways in self.table.shape_of):
            return self.best
        for turn in range(tries):
            if clock.over(until):
                break
            clock.tick()
            order, ways, phase, since = self._changed()
            limit = max(memory[turn % MEMORY], self.cost)
            if phase != self.phase:
                self.phase = self.layer.phase = phase
            cost = self._lay(since, order, ways, limit)
            if cost is None:
                self._lay(since, self.order, self.ways, float("inf"))
            else:
                self.order, self.ways, self.cost = order, ways, cost
                if cost < self.best_cost - 1e-9:
                    self.best, self.best_cost = self._kept(), cost
                    clock.found(self.best.length)
            memory[turn % MEMORY] = min(memory[turn % MEMORY], self.cost)
        return self.best

    def _changed(self) -> tuple[list[int], list[int], float, int]:
        rng, count = self.rng, self.table.count
        order, ways = self.order[:], self.ways[:]
        kind = rng.random()
        if kind < 0.3:
            at = rng.randrange(count)
            thing = order[at]
            if len(self.table.shape_of[thing]) > 1:
                ways[thing] = (ways[thing] + rng.randrange(1, len(self.table.shape_of[thing]))) % len(
                    self.table.shape_of[thing]
                )
                return order, ways, self.phase, at
        if kind < 0.6 and count > 1:
            at, to = sorted(rng.sample(range(count), 2))
            order[at], order[to] = order[to], order[at]
            return order, ways, self.phase, at
        # The thing that ends last goes in earlier; now and then any thing goes anywhere.
        last = max(range(count), key=self.ends.__getitem__) if rng.random() < 0.5 else rng.randrange(count)
        to = rng.randrange(last) if last and rng.random() < 0.7 else rng.randrange(count)
        thing = order.pop(last)
        order.insert(to, thing)
        if len(self.table.shape_of[thing]) > 1 and rng.random() < 0.3:
            ways[thing] = rng.randrange(len(self.table.shape_of[thing]))
        return order, ways, self.phase, min(last, to)

    def _lay(self, since: int, order: list[int], ways: list[int], limit: float) -> float | None:
        """Lay again from place `since` of the order; return the cost, or None when it goes over `limit` on the way."""
        layer = self.layer
        layer.keep(since)
        ends, places = self.ends[:since], self.places[:since]
        for thing in order[since:]:
            end, row, y = layer.best(thing, ways[thing], limit)
            if end > limit:
                self.ends, self.places = self.ends[:since], self.places[:since]
                return None
            layer.put(thing, ways[thing], row, y)
            ends.append(end)
            places.append((row, y))
        cost = max(ends) + TAIL * sum(ends) / len(ends)
        if cost > limit:
            self.ends, self.places = self.ends[:since], self.places[:since]
            return None
        self.ends, self.places = ends, places
        return cost

    def _kept(self) -> Places:
        import numpy as np

        count = self.table.count
        kept = Places(np.zeros(count, np.int32), np.zeros(count, np.int32), np.zeros(count), max(self.ends), self.phase)
        for thing, (row, y) in zip(self.order, self.places, strict=True):
            kept.way[thing], kept.row[thing], kept.y[thing] = self.ways[thing], row, y
        return kept
