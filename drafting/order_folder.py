"""Write what a draft gives into FOLDER/<order>/: both files or neither, each whole or not at all."""

import json
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

RESULT, SHEET = "result.json", "jobsheet.pdf"


def result_bytes(result: Mapping[str, Any]) -> bytes:
    """The result file, UTF-8; raises ValueError for a figure that JSON can't hold."""
    return (json.dumps(result, ensure_ascii=False, allow_nan=False) + "\n").encode("utf-8")


def write_together(folder: Path, files: Mapping[str, bytes]) -> None:
    """Make `folder` and put `files` in it: all are written aside first, then renamed. Raises OSError."""
    made = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    aside: dict[str, Path] = {}
    try:
        for name, content in files.items():
            aside[name] = _write_aside(folder, name, content)
        for name in list(aside):
            os.replace(aside[name], folder / name)
            del aside[name]
    except OSError:
        for path in aside.values():
            path.unlink(missing_ok=True)
        if made:
            _remove_if_empty(folder)
        raise


def _write_aside(folder: Path, name: str, content: bytes) -> Path:
    handle, path = tempfile.mkstemp(prefix=f".{name}.", dir=folder)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(path, 0o644)
    except OSError:
        os.unlink(path)
        raise
    return Path(path)


def _remove_if_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        pass
