"""The README's own example is an order file that drafts, for cutting, as it stands there."""

import json
import re
from pathlib import Path

from tests.outside.running import jobsheet

README = Path(__file__).parents[2] / "README.md"


def example() -> dict:
    (block,) = re.findall(r"```json\n(.*?)```", README.read_text(encoding="utf-8"), flags=re.DOTALL)
    return json.loads(block)


def test_the_readme_s_example_drafts_and_may_be_cut(tmp_path):
    done = jobsheet(tmp_path / "out", example())
    assert done.status == 0, done.err
    result = done.result("S-014")
    assert result["not_for_cutting"] is False
    assert result["toile_only"] is False
    assert {w["code"] for w in result["warnings"]} <= {"measures-before-cutting", "top-edge-loose"}


def test_the_readme_names_both_commands():
    text = README.read_text(encoding="utf-8")
    assert "python3 manage.py demo" in text
    assert "python3 manage.py test" in text
