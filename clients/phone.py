"""What a phone sends when it takes measures, read strictly: a thing it should not hold is refused with a sentence."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any
from uuid import UUID

from django.forms import model_to_dict
from django.utils import timezone

from clients.forms import EARLIEST, MeasuringForm
from clients.measures import BY_KEY
from clients.models import Client, Measuring, Reading, UnreadableMeasures, read_lengths
from clients.sending import Refused
from clients.taking import add, begin, tell
from workshop.length import CM, INCH

#: A phone in another time zone, or with its clock ahead, may be in tomorrow already.
CLOCKS_APART = timedelta(days=1)
ABOUT = frozenset({"worn", "shoes", "posture", "note", "weeks", "taken_on"})


@dataclass(frozen=True, slots=True)
class Sending:
    """Readings of one measuring: as written, in which unit, which of them were read twice, and what was worn."""

    token: UUID
    taken_on: date
    unit: str
    written: dict[str, str]
    sure: tuple[str, ...] = ()
    about: dict[str, str] = field(default_factory=dict)


def read(body: bytes) -> Sending:
    """Raises Refused."""
    try:
        sent = json.loads(body)
    except ValueError:
        raise Refused("I can't read what this phone sent.") from None
    if not isinstance(sent, dict):
        raise Refused("I can't read what this phone sent.")
    written = {key: text.strip() for key, text in _texts(sent, "written").items()}
    unknown = [key for key in (*written, *_list(sent, "sure")) if key not in BY_KEY]
    if unknown:
        raise Refused(f"No measure is called “{unknown[0][:40]}”.")
    unit = sent.get("unit")
    if unit not in (INCH, CM):
        raise Refused("Write whether this is in inches or in centimetres.")
    about = _texts(sent, "about")
    if not about.keys() <= ABOUT:
        raise Refused("I can't read what this phone sent.")
    try:
        read_lengths(written, unit)
    except UnreadableMeasures as refused:
        raise Refused(str(refused)) from None
    return Sending(_token(sent), _day(sent), unit, written, tuple(_list(sent, "sure")), about)


def keep(sending: Sending, client: Client, *, by) -> dict[str, Any]:
    """Write it down, and answer what the phone needs to know. Raises Refused; the transaction around it then keeps nothing."""
    measuring = Measuring.objects.filter(token=sending.token).first()
    if measuring is not None and measuring.client_id != client.pk:
        raise Refused("These measures were begun for another client. Write them once more.")
    if measuring is None and not sending.written:
        raise Refused("No measure is written yet.")
    about, begun = _about(sending, measuring or Measuring(client=client, taken_by=by, taken_on=sending.taken_on)), measuring is None
    measuring = begin(client, sending.token, by, about) if begun else tell(measuring, about)
    new = add(measuring, sending.written, sending.unit, by=by, sure=sending.sure, begun=begun)
    return {
        "token": str(measuring.token),
        "taken_on": measuring.taken_on.isoformat(),
        "kept": _numbers(measuring, sending.written, new),
        "at": timezone.now().isoformat(),
    }


def _numbers(measuring: Measuring, written: dict[str, str], new: list[Reading]) -> dict[str, int]:
    """Which reading stands for each measure sent: the new one, or one of the same length that was there."""
    numbers = {reading.key: reading.pk for reading in new}
    if numbers.keys() < written.keys():
        numbers = {key: reading.pk for key, reading in Measuring.objects.with_readings().get(pk=measuring.pk).current().items()}
    return {key: numbers[key] for key in written}


def _about(sending: Sending, stands: Measuring) -> dict[str, Any]:
    """What the page of measures holds beside the readings: as it stands, with what the phone changed."""
    if not sending.about:
        return {} if stands.pk else {"taken_on": sending.taken_on}
    was = {name: "" if value is None else value for name, value in model_to_dict(stands, MeasuringForm.Meta.fields).items()}
    form = MeasuringForm(was | sending.about, instance=Measuring(client=stands.client, taken_by=stands.taken_by))
    if not form.is_valid():
        name, errors = next(iter(form.errors.items()))
        raise Refused(f"{form.fields[name].label}: {errors[0]}")
    return form.cleaned_data


def _texts(sent: dict, name: str) -> dict[str, str]:
    found = sent.get(name, {})
    fits = isinstance(found, dict) and all(isinstance(text, str) and "\x00" not in text for text in found.values())
    if not fits or len(found) > len(BY_KEY):
        raise Refused("I can't read what this phone sent.")
    return found


def _list(sent: dict, name: str) -> list[str]:
    found = sent.get(name, [])
    if not isinstance(found, list) or not all(isinstance(each, str) for each in found) or len(found) > len(BY_KEY):
        raise Refused("I can't read what this phone sent.")
    return found


def _token(sent: dict) -> UUID:
    try:
        return UUID(sent["token"])
    except (KeyError, ValueError, TypeError, AttributeError):
        raise Refused("I can't read whose measures these are.") from None


def _day(sent: dict) -> date:
    try:
        day = date.fromisoformat(sent["taken_on"])
    except (KeyError, ValueError, TypeError):
        raise Refused("I can't read the day on which this was measured.") from None
    today = timezone.localdate()
    if today < day <= today + CLOCKS_APART:
        return today
    if day < EARLIEST:
        raise Refused(f"I read {day.isoformat()} as the day of measuring. That is too long ago: look at the year.")
    if day > today:
        raise Refused(f"This phone says that it is {day.isoformat()}. Set its clock, then send again.")
    return day
