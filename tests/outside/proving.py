"""Draft one garment for one body and judge it from its result alone: right, refused with a sentence that helps, or faulty."""

from __future__ import annotations

import random
from dataclasses import dataclass

from drafting.engine.errors import DraftingError, ImpossibleMeasure, MissingMeasure, NoSolution, UnknownChoice
from drafting.engine.garments import KINDS, draft
from drafting.engine.result import as_result
from drafting.engine.spec import GarmentSpec
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.many_bodies import ROLES, TRIES, chosen

INCH = 25.4
RIGHT, REFUSED, FAULTY = "right", "refused", "faulty"


@dataclass(frozen=True)
class Outcome:
    how: str
    #: Why it was refused (the measure, or what has no solution), or what is wrong with it.
    why: str = ""
    said: str = ""
    options: tuple = ()


def spec_for(kind, body: dict[str, float], options: dict[str, object]) -> GarmentSpec:
    """Of the body, the measures that this kind asks for."""
    asked = (*kind.measures, *kind.optional_measures)
    measures = {key: value * INCH for key, value in body.items() if key in asked}
    layers = ROLES if options.get("lined") else {role: cloth for role, cloth in ROLES.items() if role != "lining"}
    return GarmentSpec(kind.name, options, measures, layers=layers)


def written(mm: float) -> str:
    return f"{mm / INCH:.2f} in"


def prove(name: str, body: dict[str, float], which: str) -> Outcome:
    """The garment of kind `name` for this body. Choices that exclude each other must be refused as such, and are drawn anew."""
    kind, draw = KINDS[name], random.Random(f"{name}, {which}")
    for _ in range(TRIES):
        options = chosen(kind, draw, body)
        told = tuple(options.items())
        try:
            drafted = draft(spec_for(kind, body, options))
        except UnknownChoice as refused:
            if trouble := unhelpful(refused):
                return Outcome(FAULTY, trouble, options=told)
        except DraftingError as refused:
            trouble = unhelpful(refused)
            return Outcome(FAULTY if trouble else REFUSED, trouble or reason(refused), refused.sentence(written), told)
        except Exception as broken:  # whatever it is, a dressmaker must never see it
            return Outcome(FAULTY, f"{type(broken).__name__}: {broken}", options=told)
        else:
            wrong = [f"fails “{check.name}”: {check.figure:.2f} {check.unit}" for check in drafted.failed]
            result = as_result(drafted, order="S-001", plain=written, with_unit=written)
            wrong += unasked(breaches(result), kind) if which.endswith("0") else []
            wrong += all_faults(result)
            return Outcome(FAULTY, "; ".join(wrong[:3]), options=told) if wrong else Outcome(RIGHT, options=told)
    return Outcome(FAULTY, f"{TRIES} times choices that exclude each other", options=told)


def unasked(found: list[str], kind) -> list[str]:
    """The contract's breaches, but for measures and levels that a garment without that part of the body has not."""
    has = {"chest": "bust"}
    lacking = {key for key in ("chest", "bust", "under_bust", "waist", "hip") if has.get(key, key) not in kind.measures}
    spared = tuple(f"result.{part}.{key}: missing" for part in ("measures", "levels", "side_levels") for key in lacking)
    return [each for each in found if each not in spared]


def reason(refused: DraftingError) -> str:
    if isinstance(refused, ImpossibleMeasure):
        return refused.measure
    return refused.unknown if isinstance(refused, NoSolution) else str(refused)


def unhelpful(refused: DraftingError) -> str:
    """What a refusal lacks: it says what was read or looked for, and what would do."""
    if not isinstance(refused, (ImpossibleMeasure, MissingMeasure, NoSolution, UnknownChoice)):
        return f"no refusal for a dressmaker: {type(refused).__name__}: {refused}"
    said = refused.sentence(written)
    if not said.endswith(".") or len(said) < 30 or "_" in said.replace(getattr(refused, "key", "-"), "") or "{" in said:
        return f"a sentence that does not help: {said}"
    if not any(each in said for each in (". ", "; ", ": ", "Choose")):
        return f"it says nothing of what would do: {said}"
    return ""
