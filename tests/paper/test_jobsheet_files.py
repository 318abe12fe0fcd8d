"""The command writes patterns and files for others beside the job sheet."""

import io
import json

import pypdf
import pytest

from drafting.management.commands.jobsheet import Command
from tests.drafting.orders import example


def run(tmp_path, *options):
    order = tmp_path / "order.json"
    order.write_text(json.dumps(example()), encoding="utf-8")
    out, err = io.StringIO(), io.StringIO()
    command = Command(stdout=out, stderr=err)
    parser = command.create_parser("manage.py", "jobsheet")
    status = command.run_command(vars(parser.parse_args([str(order), "--out", str(tmp_path / "out"), "--no-sheet", "--no-lay", *options])))
    return status, err.getvalue(), {path.name for path in (tmp_path / "out").glob("*/*")}


def test_each_paper_and_file_is_written_under_its_name(tmp_path):
    status, _, files = run(tmp_path, "--pattern", "a0,roll:914mm", "--dxf", "--svg", "--png", "--csv")
    assert status == 0
    assert files == {"result.json", "pattern-a0.pdf", "pattern-roll-914mm.pdf", "pattern.dxf", "pattern.svg", "pattern.png", "cut-list.csv"}
    page = pypdf.PdfReader(tmp_path / "out" / "S-014" / "pattern-roll-914mm.pdf").pages[0]
    assert float(page.mediabox.width) == pytest.approx(914 * 72 / 25.4, abs=0.01)


def test_an_unknown_paper_is_refused_before_anything_is_made(tmp_path):
    status, said, files = run(tmp_path, "--pattern", "a4,a7")
    assert (status, files) == (2, set())
    assert "I don't know the paper “a7”" in said


def test_a_pattern_that_the_roll_cannot_hold_writes_nothing(tmp_path):
    status, said, files = run(tmp_path, "--pattern", "roll:300mm")
    assert (status, files) == (2, set())
    assert "Use a wider roll" in said
