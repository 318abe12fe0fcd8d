"""What the phone reads, prints and points out by itself is what the workshop's computer would: thousands of the same questions to both."""

import json
import random
from decimal import Decimal

import pytest

from clients.agreement import RULES, contradictions, for_the_phone
from clients.card import exact
from clients.checks import Earlier, remark
from clients.measures import BY_KEY
from clients.models import LONGEST_MM, read_length
from tests.clients.book import make_client
from workshop.length import UnreadableLength, parse_length, print_length

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

PIECES = ["", " ", "-", "−", "+", "0", "7", "28", "36", "120", "1/2", " 3/8", "¼", "⅞", "³⁄₁₆", "1/", "5/7", "9/8", "1/0", ".5", ",25", ".", "in", " cm", "mm", "yd", " m", '"', "”", "⅓", "x", "\u00a0", "-3/4", "99999"]
SEED = 20260312


@pytest.fixture
def page(phone, dunya, let_in):
    let_in(phone, dunya).goto(f"/clients/{make_client().pk}/measure/")
    phone.wait_for_selector("[data-one-name]:not(:empty)")
    return phone


def refused_or_exact(text: str, unit: str):
    try:
        return {"at": exact(read_length(text, unit))}
    except UnreadableLength as refused:
        return {"refused": str(refused)}


def test_lengths_are_read_alike(page):
    chance = random.Random(SEED)
    typed = ["".join(chance.choices(PIECES, k=chance.randint(1, 4))) for _ in range(4000)]
    asked = [(text, unit) for text in dict.fromkeys(typed) for unit in ("in", "cm")]
    answers = page.evaluate("(asked) => asked.map(([text, unit]) => chalk.lengths.read(text, unit))", asked)
    differ = [(text, unit, ours, theirs) for (text, unit), theirs in zip(asked, answers, strict=True) if (ours := refused_or_exact(text, unit)) != theirs]
    assert len(asked) > 3000
    assert sum("at" in each for each in answers) > 300
    assert differ == [], differ[:10]


def test_lengths_are_printed_alike(page):
    chance = random.Random(SEED)
    lengths = [chance.randint(-40_000_000, 40_000_000) for _ in range(2000)] + [15875 * n for n in range(2000)]
    asked = [(length, unit) for length in lengths for unit in ("in", "cm")]
    answers = page.evaluate("(asked) => asked.map(([length, unit]) => chalk.lengths.print(length, unit))", asked)
    differ = [(each, ours, theirs) for each, theirs in zip(asked, answers, strict=True) if (ours := print_length(Decimal(each[0]) / 10000, each[1], step=16)) != theirs]
    assert differ == [], differ[:10]


def test_odd_readings_are_pointed_out_alike(page):
    chance = random.Random(SEED)
    asked, ours = [], []
    for _ in range(3000):
        measure, unit = chance.choice(list(BY_KEY.values())), chance.choice(["in", "cm"])
        last = Decimal(chance.randint(int(measure.low_mm), int(measure.high_mm))) if chance.random() < 0.8 else None
        near = (last or measure.low_mm) * Decimal(chance.choice(["1", "1.03", "1.05", "0.95", "0.4", "2.5", "0.3937"])) + chance.choice([0, 254, -254, 100])
        written = print_length(max(near, Decimal(20)), unit, step=16)
        mm = parse_length(written, unit)
        if not 0 < mm <= LONGEST_MM:
            continue  # refused before anything is said of it
        found = remark(measure.key, written, mm, unit, Earlier(last, "2 March") if last else None)
        ours.append(found and {"text": found.text, "offer": found.offer})
        told = {"key": measure.key, "kind": measure.kind, "low": exact(measure.low_mm), "high": exact(measure.high_mm), "last": exact(last) if last else 0, "when": "2 March"}
        asked.append((told, written, unit))
    theirs = page.evaluate("(asked) => asked.map(([measure, written, unit]) => chalk.odd.remark(measure, written, unit))", asked)
    differ = [each for each in zip(asked, ours, theirs, strict=True) if each[1] != each[2]]
    assert sum(each is not None for each in ours) > 1000
    assert differ == [], differ[:5]


def test_measures_that_dont_go_together_are_pointed_out_alike(page):
    chance = random.Random(SEED)
    rules = json.loads(json.dumps(for_the_phone()))
    asked, ours = [], []
    for _ in range(1500):
        unit = chance.choice(["in", "cm"])
        lengths = {key: Decimal("25.4") * chance.randint(int(each.low_in * 11), int(each.high_in * 20)) / 16 for key, each in BY_KEY.items() if chance.random() < 0.8}
        ours.append([[each.text, list(each.keys)] for each in contradictions(lengths, unit)])
        asked.append(({key: exact(mm) for key, mm in lengths.items()}, unit))
    theirs = page.evaluate(
        "([rules, asked]) => asked.map(([lengths, unit]) => chalk.odd.against(rules, lengths, unit).map((each) => [each.text, each.keys]))", [rules, asked]
    )
    differ = [each for each in zip(asked, ours, theirs, strict=True) if each[1] != each[2]]
    assert {tuple(keys) for said in ours for _, keys in said} == {rule.keys for rule in RULES}
    assert differ == [], differ[:3]
