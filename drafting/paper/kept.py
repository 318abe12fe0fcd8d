"""Papers that were made are kept in the data folder, by what went into them, and given out again as long as that stands.

A file's name holds the paper's name, a key over everything that it was made from (our own code and styles among it), and its
count of pages. The folder can be emptied at any time: all of it can be made again.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any

from django.conf import settings

MOST_BYTES = 500_000_000
"""Above this the papers made longest ago are removed: about 3,000 full-size patterns."""
SOURCES = (
    "drafting/*.py", "drafting/paper/*.py", "workshop/days.py", "workshop/length.py",
    "templates/sheets/*.html", "templates/paper/*.html", "static/css/sheet.css", "static/css/paper.css", "static/fonts/*.ttf",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class KeptPaper:
    """One file: its paper's name (with what was chosen), kind of file, pages (0 where it has none), size, when made."""

    name: str
    suffix: str
    pages: int
    size: int
    made_at: datetime
    path: Path


def folder_of(digest: str) -> Path:
    """Return where the papers of a draft (or of whatever has that digest) are kept."""
    return Path(settings.DATA) / "papers" / digest[:2] / digest


def kept_or_made(digest: str, name: str, suffix: str, made_from: Mapping[str, Any], make: Callable[[], bytes]) -> bytes:
    """Return the paper called `name`, from the folder where one made from the same lies there, else made and kept.

    A folder that can't be written to costs time only: the paper is given out all the same.
    """
    key = key_of(made_from)
    for paper in papers_of(digest):
        if paper.name == name and paper.suffix == suffix and f".{key}." in paper.path.name:
            try:
                return paper.path.read_bytes()
            except OSError:
                break
    content = make()
    try:
        _keep(folder_of(digest), name, suffix, key, content)
    except OSError:
        return content
    return content


def key_of(made_from: Mapping[str, Any]) -> str:
    """Return a short key of everything that a paper was made from and by; raises TypeError for what JSON can't hold."""
    text = json.dumps({"edition": edition(), **made_from}, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:20]


@cache
def edition() -> str:
    """Return a digest of the code and styles that papers are made by, so that an upgrade makes them anew."""
    hashed = hashlib.sha256()
    for pattern in SOURCES:
        for path in sorted(Path(settings.BASE_DIR).glob(pattern)):
            hashed.update(path.read_bytes())
    return hashed.hexdigest()


def papers_of(digest: str) -> list[KeptPaper]:
    """Return what is kept for a digest, the newest first."""
    found = []
    for path in _files(folder_of(digest)):
        name, _, rest = path.name.partition(".")
        parts = rest.split(".")
        if len(parts) == 3 and parts[1].isdigit():
            stat = path.stat()
            found.append(KeptPaper(name, parts[2], int(parts[1]), stat.st_size, datetime.fromtimestamp(stat.st_mtime, UTC), path))
    return sorted(found, key=lambda paper: paper.made_at, reverse=True)


def _files(folder: Path) -> Iterable[Path]:
    try:
        return [path for path in folder.iterdir() if path.is_file()]
    except OSError:
        return []


def _keep(folder: Path, name: str, suffix: str, key: str, content: bytes) -> None:
    """Write the file whole or not at all, then remove those of that name which it replaces. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    target = folder / f"{name}.{key}.{_pages(content) if suffix == 'pdf' else 0}.{suffix}"
    handle, aside = tempfile.mkstemp(dir=folder, prefix="aside-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.replace(aside, target)
    except OSError:
        Path(aside).unlink(missing_ok=True)
        raise
    for path in _files(folder):
        if path != target and path.name.startswith(f"{name}.") and path.suffix == f".{suffix}":
            path.unlink(missing_ok=True)


def _pages(content: bytes) -> int:
    import io

    import pikepdf

    with pikepdf.open(io.BytesIO(content)) as opened:
        return len(opened.pages)


def forget_oldest(most_bytes: int = MOST_BYTES) -> int:
    """Remove the papers made longest ago until at most `most_bytes` are kept; return how many went."""
    files = [(path.stat().st_mtime, path.stat().st_size, path) for path in (Path(settings.DATA) / "papers").rglob("*") if path.is_file()]
    held, gone = sum(size for _, size, _ in files), 0
    for _, size, path in sorted(files):
        if held <= most_bytes:
            break
        path.unlink(missing_ok=True)
        held, gone = held - size, gone + 1
    return gone
