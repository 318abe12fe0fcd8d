"""What a change reads like in an order's history: each kind of row names what of it is worth telling."""

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal

from orders.stages import Stage
from workshop.templatetags.workshop_tags import clock, day_of_year

LONGEST = 300
MOMENTS = ("signed_off_at", "done_at")
#: field -> what it is called in the history
OF_ORDER = {
    "stage": "stage",
    "collect_on": "collection",
    "cut_on": "cutting day",
    "occasion_on": "the occasion",
    "price": "price",
    "deposit": "deposit to ask for",
    "urgent_fee": "urgent fee",
    "budget": "budget",
    "wish": "wish",
    "held_until": "held until",
    "kept": "kept of what was paid",
    "instalments": "instalments",
    "note": "notes",
    "why_called_off": "why called off",
    "brought_in": "brought in",
    "toile_wanted": "toile first",
    "leftovers": "leftovers",
    "leftovers_on": "leftovers given back",
}
OF_GARMENT = {
    "title": "name",
    "options": "choices",
    "rules": "house rules",
    "hours_planned": "hours planned",
    "hours_taken": "hours taken",
    "signed_off_at": "signed off",
    "cut_despite": "cut despite",
    "why_cut": "why all the same",
    "was_cut_on": "cut",
    "put_away_on": "put away",
}
OF_CLOTH = {
    "name": "name",
    "width_written": "width",
    "on_hand_written": "on hand",
    "whose": "whose",
    "layout": "how it is laid",
    "one_way": "one way",
    "shrink_percent": "shrinks",
    "price": "price a yard or metre",
    "prints": "print and flaws",
}
OF_CLOTH_TEST = {"needle": "needle", "stitch": "stitch", "heat": "iron", "steam": "steam", "bleeds": "bleeding", "note": "note"}
OF_FITTING = {"at": "time", "note": "note", "done_on": "done", "missed_on": "missed", "is_toile": "of the toile"}
OF_MENDING = {"what": "what", "amount_written": "amount", "place": "place", "price": "price", "minutes": "minutes", "done_at": "done"}
OF_OUT_WORK = {
    "what": "what",
    "to_whom": "to whom",
    "gone_on": "gone on",
    "due_back": "due back",
    "back_on": "back",
    "cost": "cost",
    "paid_on": "paid",
}
OF_COMPLAINT = {"why": "whose", "words": "what is wrong", "to_do": "to do", "by_when": "by", "settled_on": "put right"}


def differences(labels: Mapping[str, str], before: Mapping, after: Mapping) -> list[dict]:
    """Each field that differs, as a Change keeps it. Choices and rules are told one by one."""
    found = []
    for name, label in labels.items():
        if name not in after or before[name] == after[name]:
            continue
        if isinstance(after[name], dict):
            found += [
                {"field": name, "label": f"{label}: {key.replace('_', ' ').replace('.', ' ')}"[:60],
                 "before": told(before[name].get(key)), "after": told(after[name].get(key))}
                for key in sorted({*before[name], *after[name]})
                if before[name].get(key) != after[name].get(key)
            ]  # fmt: skip
        elif name in MOMENTS:  # when it was is the change's own time, which stands beside it
            found.append({"field": name, "label": label, "before": "", "after": "yes" if after[name] else "taken back"})
        else:
            found.append({"field": name, "label": label, "before": told(before[name]), "after": told(after[name])})
    return found


def told(value) -> str:
    """A value as the history says it: “12 March”, “580”, “yes”."""
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return f"{with_year(value)}, {clock(value)}"
    if isinstance(value, date):
        return with_year(value)
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if value in Stage.values:
        return str(Stage(value).label)
    if isinstance(value, list) and all(isinstance(each, dict) and each.keys() == {"on", "amount"} for each in value):
        return "; ".join(f"{each['amount']} on {with_year(date.fromisoformat(each['on']))}" for each in value)
    text = " ".join(str(value).split())
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def with_year(moment: date | datetime) -> str:
    """A history is read years later, so its days have their year."""
    return day_of_year(moment)
