"""Names and telephone numbers without what people leave out when they look for them.

SQLite's LIKE knows no accents and folds only ASCII letters, so each searched field has a folded
copy beside it, made whenever its row is saved.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable

from django.db import models

#: Letters of European names that Unicode does not take apart.
_LETTERS = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i", "ħ": "h"}
)


def fold(text: str) -> str:
    """The text in small letters without accents, single blanks between its words.

    >>> fold("  Zoë  ŁUKASZ-Ångström ")
    'zoe lukasz-angstrom'
    """
    spread = unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS))
    bare = "".join(c for c in spread if not unicodedata.combining(c)).casefold().translate(_LETTERS)
    return " ".join(bare.split())


def digits(text: str) -> str:
    """Only the digits of a telephone number, in plain 0 to 9.

    >>> digits("07700 900-418")
    '07700900418'
    """
    return "".join(str(unicodedata.digit(c)) for c in text if c.isdigit())


class FoldedField(models.CharField):
    """A folded copy of the field named `source`, made each time the row is saved."""

    fold: Callable[[str], str] = staticmethod(fold)

    def __init__(self, *args, source: str, **kwargs):
        self.source = source
        super().__init__(*args, **{"editable": False, "default": "", "blank": True} | kwargs)

    def deconstruct(self):
        name, path, args, kwargs = super().deconstruct()
        return name, path, args, kwargs | {"source": self.source}

    def pre_save(self, model_instance, add):
        value = self.fold(getattr(model_instance, self.source))[: self.max_length]
        setattr(model_instance, self.attname, value)
        return value


class DigitsField(FoldedField):
    """The digits of the field named `source`."""

    fold = staticmethod(digits)
