"""What is written is whole: both files of an order, or neither."""

import json
import os

import pytest

from drafting.order_folder import result_bytes, write_together


def test_it_makes_the_folder_and_writes_both_files(tmp_path):
    folder = tmp_path / "deep" / "S-014"
    write_together(folder, {"result.json": b"{}", "jobsheet.pdf": b"%PDF"})
    assert sorted(path.name for path in folder.iterdir()) == ["jobsheet.pdf", "result.json"]
    assert (folder / "result.json").read_bytes() == b"{}"


def test_it_replaces_what_was_there(tmp_path):
    for content in (b"old", b"new"):
        write_together(tmp_path / "S-014", {"result.json": content})
    assert (tmp_path / "S-014" / "result.json").read_bytes() == b"new"


def test_when_the_second_file_cannot_be_written_the_first_is_as_it_was(tmp_path, monkeypatch):
    folder = tmp_path / "S-014"
    write_together(folder, {"result.json": b"old"})
    room = iter([None])

    def full(_):
        if next(room, "full") == "full":
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_together(folder, {"result.json": b"new", "jobsheet.pdf": b"%PDF"})
    assert [(path.name, path.read_bytes()) for path in folder.iterdir()] == [("result.json", b"old")]


def test_when_nothing_can_be_written_a_new_folder_is_taken_away_again(tmp_path, monkeypatch):
    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_together(tmp_path / "S-014", {"result.json": b"new"})
    assert list(tmp_path.iterdir()) == []


def test_a_file_where_the_folder_should_be_is_an_error_and_stays(tmp_path):
    (tmp_path / "S-014").write_text("mine")
    with pytest.raises(OSError):
        write_together(tmp_path / "S-014", {"result.json": b"new"})
    assert (tmp_path / "S-014").read_text() == "mine"


def test_the_result_is_utf_8_json_and_refuses_what_json_has_no_word_for():
    assert json.loads(result_bytes({"client": "Inés"})) == {"client": "Inés"}
    assert "Inés".encode() in result_bytes({"client": "Inés"})
    with pytest.raises(ValueError):
        result_bytes({"bust": float("nan")})
