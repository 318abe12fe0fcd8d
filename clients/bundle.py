"""The measuring page's styles and scripts as one file each: on a slow network every file costs a round of two seconds.

Their addresses carry a digest of what is in them, so that a phone may keep them for good.
"""

from __future__ import annotations

import re
from functools import cache
from hashlib import sha256
from pathlib import Path

from django.contrib.staticfiles import finders
from django.templatetags.static import static
from django.urls import reverse

STYLES = ("tokens", "base", "layout", "parts", "forms", "tray", "measure", "one")
#: In the order in which they stand on each other.
SCRIPTS = ("phone", "tray", "lengths", "odd", "measure", "pad", "one")


@cache
def styles() -> str:
    """All styles; what they point to lies where it lies for the others."""
    text = "\n".join(_source(f"css/{name}.css") for name in STYLES)
    return re.sub(r"url\(\"\.\./([^\"]+)\"\)", lambda found: f'url("{static(found[1])}")', text)


@cache
def scripts() -> str:
    return "\n".join(_source(f"js/{name}.js") for name in SCRIPTS)


def addresses() -> dict[str, str]:
    """Where the two are: {"styles": …, "scripts": …}."""
    return {
        "styles": reverse("clients:measuring-styles", args=[_digest(styles())]),
        "scripts": reverse("clients:measuring-scripts", args=[_digest(scripts())]),
    }


def _source(name: str) -> str:
    return Path(finders.find(name)).read_text(encoding="utf-8")


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()[:12]
