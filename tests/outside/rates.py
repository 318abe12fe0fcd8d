"""Draft every kind for all bodies of many_bodies.py, and print the README's table: python -m tests.outside.rates [EVERY]

Uses all processors; minutes on two. With EVERY, only every so-many-th body.
"""

import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor

from drafting.engine.garments import KINDS
from tests.outside.many_bodies import every
from tests.outside.proving import FAULTY, REFUSED, RIGHT, Outcome, prove

HEAD = "| garment | 260 women | 2,000 made up | refused for |\n| --- | --- | --- | --- |"


def all_outcomes(job: tuple[str, int]) -> list[tuple[str, Outcome]]:
    kind, count = job
    return [(which, prove(kind, body, which)) for which, body in every(count)]


def share(outcomes: list[Outcome]) -> str:
    right = sum(each.how == RIGHT for each in outcomes)
    return f"{100 * right / len(outcomes):.4g} %"


def row(kind: str, outcomes: list[tuple[str, Outcome]]) -> str:
    women, others = ([each for which, each in outcomes if which.startswith(start)] for start in ("woman", "body"))
    reasons = Counter(each.why.replace("_", " ").replace(".", " ") for _, each in outcomes if each.how == REFUSED)
    told = ", ".join(f"{why} {times}" for why, times in reasons.most_common()) or "–"
    return f"| {KINDS[kind].title.lower()} | {share(women)} | {share(others)} | {told} |"


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    faulty = []
    print(HEAD)
    with ProcessPoolExecutor() as pool:
        for kind, outcomes in zip(KINDS, pool.map(all_outcomes, [(kind, count) for kind in KINDS]), strict=True):
            print(row(kind, outcomes), flush=True)
            faulty += [f"{kind}, {which}: {each.why} {dict(each.options)}" for which, each in outcomes if each.how == FAULTY]
    print(f"\n{len(faulty)} faulty", *faulty[:40], sep="\n")


if __name__ == "__main__":
    main()
