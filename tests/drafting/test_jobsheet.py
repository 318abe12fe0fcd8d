"""The jobsheet command: order files in, folders out, and what it answers the shell."""

import io
import json
import os
import stat
import subprocess
import sys

import pypdf
import pytest
from django.conf import settings
from django.core.management import call_command

from drafting.engine import checks
from tests.drafting.orders import example, spoiled
from tests.pdf_text import words_of_pages


@pytest.fixture
def run(tmp_path, capsys):
    """run(orders…, options=…): write each order file, run the command (to draft alone), answer (status, stdout, stderr)."""

    def call(*orders, options=("--no-sheet", "--no-lay")):
        paths = []
        for number, order in enumerate(orders):
            path = tmp_path / f"order-{number}.json"
            if isinstance(order, bytes):
                path.write_bytes(order)
            elif isinstance(order, dict):
                path.write_text(json.dumps(order), "utf-8")
            else:
                path = order
            paths.append(str(path))
        with pytest.raises(SystemExit) as ended:
            call_command("jobsheet", *paths, "--out", str(tmp_path / "out"), *options)
        said = capsys.readouterr()
        return ended.value.code, said.out, said.err

    call.out = tmp_path / "out"
    return call


def written(run) -> list[str]:
    return sorted(str(path.relative_to(run.out)) for path in run.out.rglob("*") if path.is_file()) if run.out.exists() else []


def named(name: str) -> dict:
    return example() | {"order": name}


@pytest.fixture
def strict(monkeypatch):
    """No order that we know makes the engine fail a check of its own; with the girths' tolerance at nothing, any does."""
    monkeypatch.setattr(checks, "GIRTH", 1e-12)


def test_an_order_gives_its_result_and_its_sheet(run):
    status, out, _ = run(example(), options=())
    assert status == 0
    assert written(run) == ["S-014/jobsheet.pdf", "S-014/result.json"]
    assert "S-014" in out
    assert "S-014" in words_of_pages((run.out / "S-014" / "jobsheet.pdf").read_bytes())[0]


def test_the_result_is_plain_utf_8_json(run):
    run(named("Überwurf"))
    result = json.loads((run.out / "Überwurf" / "result.json").read_bytes().decode("utf-8"))
    assert (result["order"], result["engine"], result["units"]) == ("Überwurf", "1", "mm")


def test_files_can_be_read_by_others_in_the_workshop(run):
    run(example())
    assert stat.S_IMODE(os.stat(run.out / "S-014" / "result.json").st_mode) == 0o644


def test_several_orders_are_made_in_one_call(run):
    status, _, _ = run(named("a"), named("b"), named("c"))
    assert status == 0
    assert written(run) == ["a/result.json", "b/result.json", "c/result.json"]


def test_a_bad_order_is_refused_and_the_others_are_still_made(run):
    status, _, err = run(named("a"), spoiled(("measures", "bust"), "38 5/7"), named("c"))
    assert status == 2
    assert written(run) == ["a/result.json", "c/result.json"]
    assert "order-1.json: measures.bust: I can't read “38 5/7”." in err


def test_each_problem_of_a_bad_order_has_its_line(run):
    order = spoiled(("garment", "fit"), "tight")
    order["cloths"][1]["widht"] = 44
    _, _, err = run(order)
    assert [line.split(": ")[1] for line in err.splitlines()] == ["cloths[2].widht", "garment.fit"]


def test_messages_do_not_go_to_standard_output(run):
    _, out, err = run(spoiled(("garment", "fit"), "tight"))
    assert out == "" and err != ""


def test_a_draft_that_fails_a_check_is_written_and_answers_3(run, strict):
    status, _, err = run(example())
    assert status == 3
    result = json.loads((run.out / "S-014" / "result.json").read_text("utf-8"))
    failed = [check["check"] for check in result["checks"] if not check["pass"]]
    assert failed
    for name in failed:
        assert f"NOT FOR CUTTING: {name}" in err


def test_a_failing_drafts_sheet_says_not_for_cutting_on_every_page(run, strict):
    run(example(), options=())
    pages = words_of_pages((run.out / "S-014" / "jobsheet.pdf").read_bytes())
    assert pages and all("NOT FOR CUTTING" in page for page in pages)


def test_a_bad_order_outweighs_a_failed_check(run, strict):
    status, _, _ = run(example(), spoiled(("garment", "fit"), "tight"))
    assert status == 2
    assert written(run) == ["S-014/result.json"]


def test_a_body_that_cannot_be_drafted_is_refused_in_one_sentence(run):
    status, _, err = run(spoiled(("measures", "under_bust"), 44))
    assert status == 2
    assert len(err.splitlines()) == 1 and "nder" in err
    assert written(run) == []


@pytest.mark.parametrize(
    "raw",
    [b"", b"{", b"\xff\xfe{", b"\xef\xbb\xbf{}", b'{"a": NaN}', b'{"a": 1, "a": 2}', b"[" * 100_000, b"x" * 10_000_000, b"\xe9"],
)
def test_a_file_that_is_no_order_file_gives_one_line(run, raw):
    status, out, err = run(raw, named("b"))
    assert status == 2
    assert len(err.replace("\n", "|").split("order-0.json: ")) == 2
    assert written(run) == ["b/result.json"]


def test_a_file_that_is_not_there_is_named(run, tmp_path):
    status, _, err = run(tmp_path / "gone.json")
    assert status == 2
    assert "gone.json: The file can't be read: No such file or directory." in err


def test_a_folder_in_place_of_an_order_file_is_named(run, tmp_path):
    status, _, err = run(tmp_path)
    assert status == 2
    assert "can't be read" in err


def test_a_path_that_no_file_can_have_is_named(run):
    status, _, err = run("a\0b.json")
    assert status == 2
    assert "can't be read" in err


@pytest.mark.parametrize("name", ["../x", "a/b", "", "..", "x" * 300, "a\0b", "/tmp/x"])
def test_an_order_name_cannot_leave_the_folder(run, tmp_path, name):
    before = sorted(path.name for path in tmp_path.iterdir())
    status, _, err = run(named(name))
    assert status == 2
    assert "order: " in err
    assert written(run) == []
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([*before, "order-0.json"])


def test_two_files_of_one_order_do_not_overwrite_each_other(run):
    status, _, err = run(example(), example() | {"client": "Wilhelmina"})
    assert status == 2
    assert "was already made from" in err


def test_a_file_where_the_orders_folder_should_be_stays(run):
    run.out.mkdir()
    (run.out / "S-014").write_text("mine")
    status, _, err = run(example(), named("b"))
    assert status == 2
    assert "Nothing was written in" in err
    assert (run.out / "S-014").read_text() == "mine"
    assert (run.out / "b" / "result.json").exists()


def test_a_second_call_replaces_the_first(run):
    run(example())
    first = (run.out / "S-014" / "result.json").read_bytes()
    run(spoiled(("measures", "bust"), 40))
    assert (run.out / "S-014" / "result.json").read_bytes() != first


def test_a_refused_order_leaves_what_was_made_before(run):
    run(example())
    first = (run.out / "S-014" / "result.json").read_bytes()
    run(spoiled(("measures", "bust"), "x"))
    assert (run.out / "S-014" / "result.json").read_bytes() == first


def test_nothing_temporary_is_left_behind(run):
    run(example(), spoiled(("measures", "bust"), "x"), options=())
    assert written(run) == ["S-014/jobsheet.pdf", "S-014/result.json"]


def test_no_lay_leaves_lays_empty(run):
    run(example(), options=("--no-sheet", "--no-lay"))
    assert json.loads((run.out / "S-014" / "result.json").read_text("utf-8"))["lays"] == []


def test_letter_paper_can_be_asked_for(run):
    run(example(), options=("--paper", "Letter"))
    page = pypdf.PdfReader(io.BytesIO((run.out / "S-014" / "jobsheet.pdf").read_bytes())).pages[0]
    assert [round(float(side)) for side in page.mediabox[2:]] == [612, 792]


@pytest.mark.parametrize("arguments", [[], ["--out", "x"], ["order.json"]])
def test_what_is_wanting_on_the_command_line_is_named(capsys, arguments):
    with pytest.raises(SystemExit) as ended:
        call_command("jobsheet", *arguments)
    assert ended.value.code == 2
    assert "jobsheet: name " in capsys.readouterr().err


def test_kinds_lists_measures_choices_rules_defaults_and_limits(capsys):
    with pytest.raises(SystemExit) as ended:
        call_command("jobsheet", "--kinds")
    said = capsys.readouterr().out
    assert ended.value.code == 0
    assert "0.5, 0.25, 0.75, 1\n" in said  # of a circle: a number, not “true”
    for word in ("bustier-gown", "under_bust", "high_bust", "back-lacing", "let_out", "1, 0 to 4", "limits"):
        assert word in said


def test_one_kind_can_be_listed(capsys):
    with pytest.raises(SystemExit) as ended:
        call_command("jobsheet", "--kinds", "bustier-gown")
    assert ended.value.code == 0
    assert capsys.readouterr().out.startswith("bustier-gown: ")


def test_a_kind_that_there_is_not_is_answered_with_the_nearest(capsys):
    with pytest.raises(SystemExit) as ended:
        call_command("jobsheet", "--kinds", "bustier-gwn")
    assert ended.value.code == 2
    assert "Did you mean bustier-gown?" in capsys.readouterr().err


def test_without_a_sheet_the_printer_is_not_even_loaded(tmp_path):
    """A cold call stays quick: WeasyPrint and the database are left alone where nothing is printed."""
    order = tmp_path / "order.json"
    order.write_text(json.dumps(example()), "utf-8")
    script = (
        "import sys, django; django.setup()\n"
        "from django.core.management import call_command\n"
        "try: call_command('jobsheet', sys.argv[1], '--out', sys.argv[2], '--no-sheet')\n"
        "except SystemExit as end: assert end.code == 0\n"
        "from django.db import connection\n"
        "print(sorted({m.partition('.')[0] for m in sys.modules} & {'weasyprint', 'PIL'}), connection.connection)\n"
    )
    data = {"CHALK_DATA": str(tmp_path / "data"), "DJANGO_SETTINGS_MODULE": "workshop.settings"}
    done = subprocess.run(
        [sys.executable, "-c", script, str(order), str(tmp_path / "out")],
        capture_output=True, text=True, cwd=settings.BASE_DIR, env=os.environ | data, timeout=120, check=True,
    )  # fmt: skip
    assert done.stdout.splitlines()[-1] == "[] None"


def test_a_list_of_kinds_that_is_read_no_further_ends_quietly():
    command = [sys.executable, "manage.py", "jobsheet", "--kinds"]
    with subprocess.Popen(command, cwd=settings.BASE_DIR, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as run:
        run.stdout.close()
        assert run.stderr.read() == b""
    assert run.returncode == 0
