"""How pages print lengths, money and days, and their icons."""

from datetime import date, datetime
from decimal import Decimal
from functools import lru_cache

from django import template
from django.contrib.staticfiles.storage import staticfiles_storage
from django.utils import timezone
from django.utils.html import format_html

from workshop.days import Form, written
from workshop.length import INCH, print_cloth, print_length, with_fractions
from workshop.models import Workshop
from workshop.money import print_money

register = template.Library()


def unit_now() -> str:
    workshop = Workshop.current()
    return workshop.unit if workshop else INCH


@register.filter
def length(mm: Decimal | float | None, step: int = 8) -> str | int:
    """`{{ mm|length }}`: 28½, or 72.4 in a metric workshop; `{{ mm|length:16 }}` for sixteenths; “·” for none.

    Django's own filter of this name counts; a list is still counted.
    """
    if hasattr(mm, "__len__"):
        return len(mm)
    return "·" if mm is None else print_length(mm, unit_now(), step=step)


@register.filter
def length_with_unit(mm: Decimal | float | None, step: int = 8) -> str:
    return "·" if mm is None else print_length(mm, unit_now(), step=step, with_unit=True)


@register.filter
def fractions(text: str) -> str:
    """`{{ act.what|fractions }}`: what was typed as 3 1/2 yd, as 3½ yd."""
    return with_fractions(text)


@register.filter
def change(mm: Decimal | float, step: int = 8) -> str:
    """A difference with its sign: +½, −¼, 0."""
    return print_length(mm, unit_now(), step=step, signed=True)


@register.filter
def cloth(mm: Decimal | float | None) -> str:
    """Cloth as it is bought: 2⅛ yd, 2 m."""
    return "·" if mm is None else print_cloth(mm, unit_now())


@register.filter
def money(amount: Decimal | int | None) -> str:
    """`{{ amount|money }}`: £340 in the workshop's currency."""
    workshop = Workshop.current()
    return "·" if amount is None or workshop is None else print_money(amount, workshop.currency)


@register.filter
def in_currency(amount: Decimal | None, currency: str) -> str:
    """`{{ payment.other_amount|in_currency:"USD" }}`: $120 USD, because several currencies share a sign."""
    return "" if amount is None else f"{print_money(abs(amount), currency)}\u00a0{currency}"


@register.filter
def plain_amount(amount: Decimal | None) -> str:
    """`{{ line.set_to|plain_amount }}`: 340, 42.5, as it is typed."""
    return "" if amount is None else f"{amount.normalize():f}"


@register.filter
def hours(number: Decimal | None) -> str:
    """`{{ garment.hours_taken|hours }}`: 7.5, 40; nothing for none."""
    return "" if number is None else f"{Decimal(number).normalize():f}"


def language_now() -> str:
    return Workshop.language_of_days()


def _local_day(moment: date | datetime) -> date:
    if isinstance(moment, datetime):
        return timezone.localtime(moment).date() if timezone.is_aware(moment) else moment.date()
    return moment


@register.filter
def day(moment: date | datetime | None) -> str:
    """12 March; with the year if it is not this year; “·” for none."""
    if moment is None:
        return "·"
    on = _local_day(moment)
    return written(on, Form.DAY if on.year == Workshop.today().year else Form.DAY_YEAR, language_now())


def plain_day(moment: date | datetime, form: Form = Form.DAY) -> str:
    """12 March, or another form; with plain spaces, for texts that are kept, drawn or read aloud."""
    return written(_local_day(moment), form, language_now()).replace("\u00a0", " ")


def day_of_year(moment: date | datetime) -> str:
    """12 March 2026, also this year."""
    return plain_day(moment, Form.DAY_YEAR)


@register.filter
def weekday(moment: date | datetime | None) -> str:
    """Thursday 12 March."""
    if moment is None:
        return "·"
    on = _local_day(moment)
    return written(on, Form.WEEKDAY_DAY if on.year == Workshop.today().year else Form.WEEKDAY_DAY_YEAR, language_now())


@register.filter
def short_day(moment: date | datetime | None) -> str:
    """Thu 12 Mar, for narrow columns."""
    if moment is None:
        return "·"
    return written(_local_day(moment), Form.SHORT_WEEKDAY_DAY, language_now())


@register.filter
def only_weekday(on: date) -> str:
    """Thu, over a column of days."""
    return written(on, Form.SHORT_WEEKDAY, language_now())


@register.filter
def month(on: date) -> str:
    """March."""
    return written(on, Form.MONTH, language_now())


@register.filter
def month_and_year(on: date) -> str:
    """March 2026."""
    return written(on, Form.MONTH_YEAR, language_now())


@register.filter
def clock(moment: datetime | None) -> str:
    """9:30, as it is by the workshop's clock."""
    return "·" if moment is None else clock_of(timezone.localtime(moment))


def clock_of(local: datetime) -> str:
    return f"{local.hour}:{local.minute:02d}"


@register.simple_tag
def icon(name: str, title: str = "") -> str:
    """`{% icon "print" %}` beside a word; with a title where it stands alone."""
    if title:
        return format_html('<svg class="icon" role="img" aria-label="{}"><use href="{}#{}"/></svg>', title, sheet_of_icons(), name)
    return drawn_icon(sheet_of_icons(), name)


@lru_cache(maxsize=1)
def sheet_of_icons() -> str:
    """Where the icons lie; its name stands as long as the program runs."""
    return staticfiles_storage.url("icons/icons.svg")


@lru_cache(maxsize=64)
def drawn_icon(sheet: str, name: str) -> str:
    return format_html('<svg class="icon" aria-hidden="true"><use href="{}#{}"/></svg>', sheet, name)
