"""What is looked for on the machine, and what is said where it is missing."""

import os
import sys

import pytest
from django.core.management import call_command

from workshop import doctor, machine


@pytest.fixture
def programs(tmp_path, monkeypatch):
    """A search path of our own: `programs("chromium")` puts an empty program of that name there."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path / "kept"))
    monkeypatch.delenv("WORKSHOP_CHROMIUM", raising=False)

    def put(name, within=folder):
        path = within / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("#!/bin/sh\n")
        path.chmod(0o755)
        return str(path)

    return put


def test_the_named_chromium_comes_before_the_systems_and_that_before_playwrights(programs, tmp_path, monkeypatch):
    assert machine.find_chromium() is None
    kept = programs("chromium-1200/chrome-linux/chrome", tmp_path / "kept")
    assert machine.find_chromium() == kept
    for name in ("google-chrome", "chromium-browser", "chromium"):
        assert machine.find_chromium() != programs(name)
        assert machine.find_chromium().endswith(f"/{name}")
    monkeypatch.setenv("WORKSHOP_CHROMIUM", programs("own", tmp_path))
    assert machine.find_chromium() == str(tmp_path / "own")


def test_system_packages_are_installed_for_root_only(programs, monkeypatch):
    programs("apt-get")
    monkeypatch.setattr(machine, "is_debian", lambda: True)
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    assert not machine.may_install()
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    assert machine.may_install()


def test_apt_is_updated_first_and_asks_nothing(programs, tmp_path, monkeypatch, capsys):
    log = tmp_path / "log"
    apt = programs("apt-get")
    with open(apt, "w") as file:
        file.write(f'#!/bin/sh\necho "$DEBIAN_FRONTEND $*" >> {log}\n')
    assert machine.apt_install(machine.PRINTING, "which the printed sheets need")
    updated, installed = log.read_text().splitlines()
    assert updated == "noninteractive update -q"
    assert installed.startswith("noninteractive install -y ")
    assert installed.endswith("libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0")
    assert "which the printed sheets need" in capsys.readouterr().err


def test_an_apt_that_fails_is_repeated_to_the_person_and_believed(programs, capsys):
    with open(programs("apt-get"), "w") as file:
        file.write("#!/bin/sh\necho 'E: Unable to locate package chromium' >&2\nexit 100\n")
    assert not machine.apt_install(machine.BROWSER, "for a test")
    assert "Unable to locate package chromium" in capsys.readouterr().err


def test_a_python_that_breaks_while_it_loads_its_libraries_counts_as_not_printing(tmp_path):
    """The probe is a child process, since a broken library can end the process that loads it."""
    broken = tmp_path / "python"
    broken.write_text("#!/bin/sh\nkill -SEGV $$\n")
    broken.chmod(0o755)
    assert not machine.can_print(broken)
    assert machine.can_print(sys.executable)


@pytest.mark.django_db
def test_the_doctor_names_every_part_and_finds_this_machine_in_order(capsys):
    call_command("doctor")
    told = capsys.readouterr().out
    for name in ("Python", "Packages", "SQLite", "Printing", "Chromium", "Data folder", "Room on disk", "Database"):
        assert f"{name}:" in told
    assert "!!" not in told


def test_the_doctor_says_what_stops_printing_and_ends_with_1(monkeypatch, capsys):
    monkeypatch.setattr(machine, "can_print", lambda: False)
    monkeypatch.setattr(machine, "is_debian", lambda: True)
    monkeypatch.setattr(doctor, "database", lambda: ("Database", "left out here", True))
    monkeypatch.setattr(doctor, "in_the_book", list)
    with pytest.raises(SystemExit, match="1"):
        call_command("doctor")
    told = capsys.readouterr().out
    assert "!! Printing:" in told
    assert "sudo apt-get install -y --no-install-recommends libpango-1.0-0" in told
