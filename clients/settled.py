"""Odd readings that somebody looked at a second time and kept: nothing more is said of them."""

from __future__ import annotations

from collections.abc import Sequence

from clients.models import Reading


def is_settled(readings: Sequence[Reading]) -> bool:
    """Whether one of these was said to be right when the last of them was already written."""
    newest = max(reading.written_at for reading in readings)
    return any(reading.sure_at and reading.sure_at >= newest for reading in readings)
