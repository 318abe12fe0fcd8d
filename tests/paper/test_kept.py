"""Papers are kept by what they were made from."""

import io

import pikepdf
import pytest

from drafting.paper import kept
from drafting.paper.kept import forget_oldest, kept_or_made, papers_of


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.DATA = tmp_path


def pdf(pages):
    with pikepdf.new() as made:
        for _ in range(pages):
            made.add_blank_page()
        out = io.BytesIO()
        made.save(out)
    return out.getvalue()


class Press:
    def __init__(self, content):
        self.content, self.times = content, 0

    def __call__(self):
        self.times += 1
        return self.content


def test_a_paper_is_made_once_for_the_same_making():
    press = Press(pdf(3))
    for _ in range(3):
        assert kept_or_made("ab" * 32, "pattern-a4", "pdf", {"x": 1}, press) == press.content
    assert press.times == 1
    (paper,) = papers_of("ab" * 32)
    assert (paper.name, paper.suffix, paper.pages, paper.size) == ("pattern-a4", "pdf", 3, len(press.content))


@pytest.mark.parametrize("other", [{"x": 2}, {"x": 1, "y": 0}])
def test_anything_else_that_goes_in_makes_it_anew_and_replaces_it(other):
    first, second = Press(pdf(1)), Press(pdf(2))
    kept_or_made("cd" * 32, "tags", "pdf", {"x": 1}, first)
    assert kept_or_made("cd" * 32, "tags", "pdf", other, second) == second.content
    assert [paper.pages for paper in papers_of("cd" * 32)] == [2]


def test_an_upgrade_makes_it_anew(monkeypatch):
    press = Press(b"x")
    kept_or_made("ab" * 32, "cut-list", "csv", {}, press)
    monkeypatch.setattr(kept, "edition", lambda: "another")
    kept_or_made("ab" * 32, "cut-list", "csv", {}, press)
    assert press.times == 2


def test_the_edition_covers_the_code_and_the_styles_that_papers_are_made_by(settings):
    found = {path.name for pattern in kept.SOURCES for path in settings.BASE_DIR.glob(pattern)}
    assert {"full_size.py", "sheets.py", "linework.py", "job.html", "pages.html", "sheet.css", "paper.css"} <= found


def test_a_folder_that_cannot_be_written_to_costs_time_only(settings, tmp_path):
    settings.DATA = tmp_path / "file"
    settings.DATA.write_text("in the way")
    assert kept_or_made("ab" * 32, "tags", "pdf", {}, Press(b"made")) == b"made"


def test_half_a_file_is_never_left(tmp_path, monkeypatch):
    def broken(*_):
        raise OSError("disk full")

    monkeypatch.setattr(kept.os, "replace", broken)
    kept_or_made("ab" * 32, "cut-list", "csv", {}, Press(b"made"))
    assert not [path for path in tmp_path.rglob("*") if path.is_file()]


def test_the_oldest_go_first_when_there_is_too_much():
    import os

    for number, name in enumerate(("a", "b", "c")):
        kept_or_made("ab" * 32, name, "csv", {}, Press(b"x" * 100))
        (paper,) = (paper for paper in papers_of("ab" * 32) if paper.name == name)
        os.utime(paper.path, (1000 + number, 1000 + number))
    assert forget_oldest(250) == 1
    assert {paper.name for paper in papers_of("ab" * 32)} == {"b", "c"}
