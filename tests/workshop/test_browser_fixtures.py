"""The browser tests' own ground: they must be able to fail."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HERE = "tests/workshop/test_browser_fixtures.py"


def run_without_chromium(*options: str) -> subprocess.CompletedProcess[str]:
    """This file's browser tests, on a machine that seems to have no Chromium."""
    surroundings = {"PATH": "/nonexistent", "HOME": "/nonexistent", "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-m", "browser", HERE, *options]
    return subprocess.run(command, cwd=ROOT, env=surroundings, capture_output=True, text=True, check=False)


def test_browser_tests_are_skipped_with_a_count_where_there_is_no_chromium():
    ended = run_without_chromium()
    assert ended.returncode == 0, ended.stdout + ended.stderr
    assert "Browser tests skipped: 3, no Chromium on this machine." in ended.stdout


def test_browser_tests_fail_without_chromium_where_they_are_required():
    ended = run_without_chromium("--browser-required")
    assert ended.returncode == 1, ended.stdout + ended.stderr
    assert "3 failed" in ended.stdout or "3 errors" in ended.stdout
    assert "--browser-required was given" in ended.stdout


@pytest.mark.browser
def test_a_phone_page_is_a_phone_wide_and_light(phone):
    phone.goto("/sign-in/")
    assert phone.evaluate("[innerWidth, matchMedia('(prefers-color-scheme: dark)').matches]") == [390, False]


@pytest.mark.browser
def test_a_dark_desk_page_is_a_desk_wide_and_dark(desk_dark):
    desk_dark.goto("/sign-in/")
    assert desk_dark.evaluate("[innerWidth, matchMedia('(prefers-color-scheme: dark)').matches]") == [1280, True]


@pytest.mark.browser
def test_faint_text_is_found_in_the_one_row_that_has_it(phone, accessible):
    row = "<li><span style='color: #666'>Marit</span></li>"
    page = "<!doctype html><html lang=en><title>Rows</title><main><h1>Rows</h1><ul>{}</ul></main></html>"
    phone.set_content(page.format(row * 30))
    accessible(phone)
    for odd in (row.replace("#666", "#aaa"), row.replace("<li>", "<li style='background: #888'>"), row.replace("<li>", "<li style='opacity: .5'>")):
        phone.set_content(page.format(row * 20 + odd + row * 9))
        with pytest.raises(AssertionError, match="color-contrast: .*nth-child\\(21\\)"):
            accessible(phone)
