"""The command that runs the tests: all of them in two runs, or those that were chosen in one."""

import pytest

from workshop.management.commands import test as command
from workshop.management.commands.test import files_with_a_browser, runs_of


@pytest.fixture
def cores(monkeypatch):
    return lambda number: monkeypatch.setattr(command.os, "cpu_count", lambda: number)


def test_everything_is_spread_over_the_cores_and_the_browser_comes_after(cores):
    cores(2)
    assert runs_of(["--browser-required"]) == [
        ["--browser-required", "-m", "not browser", "-n", "2", "--dist", "loadfile", "--no-loadscope-reorder"],
        ["--browser-required", "-m", "browser", *files_with_a_browser(), "-n", "2", "--dist", "worksteal"],
    ]


def test_the_files_with_a_browser_are_those_that_mark_a_test_so():
    found = files_with_a_browser()
    assert {"tests/browser/test_look.py", "tests/paper/test_papers_browser.py", "tests/workshop/test_browser_fixtures.py"} <= set(found)
    assert "tests/engine/test_path.py" not in found


def test_one_core_gets_no_second_process(cores):
    cores(1)
    assert runs_of([]) == [["-m", "not browser"], ["-m", "browser", *files_with_a_browser()]]


@pytest.mark.parametrize("chosen", [["tests/orders", "-k", "deposit"], ["-x"], ["-n", "4"], ["-m", "browser", "--browser-required"]])
def test_what_was_chosen_is_one_run(chosen):
    assert runs_of(chosen) == [chosen]


@pytest.mark.parametrize("codes, ended", [((0, 0), 0), ((1, 0), 1), ((0, 5), 5)])
def test_a_failure_of_either_run_is_the_command_s(monkeypatch, codes, ended):
    answers = iter(codes)
    monkeypatch.setattr(command.subprocess, "call", lambda *_, **__: next(answers))
    with pytest.raises(SystemExit) as left:
        command.Command().run_from_argv(["manage.py", "test"])
    assert left.value.code == ended
