"""Run `manage.py jobsheet` as a workshop's script would: another process, files in, files out."""

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Run:
    status: int
    out: str
    err: str
    folder: Path

    def result(self, order: str) -> dict:
        return json.loads((self.folder / order / "result.json").read_text("utf-8"))


def jobsheet(folder: Path, *orders: dict | Path, options: tuple[str, ...] = ("--no-sheet", "--no-lay")) -> Run:
    """Write the order files beside `folder`, draft them all in one call and return what came of it."""
    paths = []
    for number, order in enumerate(orders):
        path = order if isinstance(order, Path) else folder.parent / f"{folder.name}-order-{number}.json"
        if not isinstance(order, Path):
            path.write_text(json.dumps(order, ensure_ascii=False), "utf-8")
        paths.append(str(path))
    environment = os.environ | {"CHALK_DATA": str(folder.parent / "data"), "DJANGO_SETTINGS_MODULE": "workshop.settings"}
    done = subprocess.run(
        [sys.executable, str(ROOT / "manage.py"), "jobsheet", *paths, "--out", str(folder), *options],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=folder.parent,
        env=environment,
        timeout=300,
        check=False,
    )
    return Run(done.returncode, done.stdout, done.stderr, folder)
