"""The set-up of .venv, run for real in small copies of the project whose lists of packages are empty or tiny.

The copies' lists name only packages made here, so that nothing is fetched and each run takes a second or two. Python's own `venv` spends
most of its time on installing pip: it does so where its time or its pip matter, else pip is copied from where it did so once.
"""

import os
import shutil
import signal
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BASE_PYTHON = Path(sys.base_prefix) / ("bin/python3" if os.name == "posix" else "python.exe")
DJANGO_STAND_IN = """
import sys
def execute_from_command_line(argv):
    print("inside", sys.prefix, argv[1:])
"""
#: `python -m venv FOLDER`, by Python's own, but for pip.
VENV_STAND_IN = """
import shutil, subprocess, sys
from pathlib import Path
folder = sys.argv[1]
subprocess.run([sys.executable, "-I", "-m", "venv", "--without-pip", folder], check=True)
(library,) = Path(folder).glob("**/site-packages")
for part in Path({pip!r}).glob("pip*"):
    shutil.copytree(part, library / part.name)
"""


def make_wheel(folder: Path, name: str, files: dict[str, str]) -> None:
    """A wheel as its specification has it (packaging.python.org, binary distribution format 1.0)."""
    info = f"{name}-1.0.dist-info"
    files = files | {
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{path},,\n" for path in [*files, f"{info}/RECORD"])
    with zipfile.ZipFile(folder / f"{name}-1.0-py3-none-any.whl", "w") as wheel:
        for path, text in (files | {f"{info}/RECORD": record}).items():
            wheel.writestr(path, text)


def lay_out(root: Path) -> Path:
    """manage.py and what it needs before Django is there; the package called django is a stand-in of three lines."""
    (root / "workshop").mkdir(parents=True)
    (root / "tests").mkdir()
    (root / "wheels").mkdir()
    shutil.copy(ROOT / "manage.py", root)
    for name in ("__init__", "bootstrap", "locks", "machine"):
        shutil.copy(ROOT / "workshop" / f"{name}.py", root / "workshop")
    management = {"django/__init__.py": "", "django/core/__init__.py": "", "django/core/management.py": DJANGO_STAND_IN}
    make_wheel(root / "wheels", "standin", management)
    (root / "requirements.txt").write_text("standin==1.0\n")
    (root / "tests" / "requirements.txt").write_text("")
    return root


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the project in which nothing is set up yet."""
    return lay_out(tmp_path / "a copy")


@pytest.fixture(scope="module")
def first_run(tmp_path_factory) -> subprocess.CompletedProcess:
    """A copy's first run, for real; what it made is laid aside, so that many tests can begin where it ended."""
    root = lay_out(tmp_path_factory.mktemp("first run") / "a copy")
    done = run(root, "check", "--tag", "two words")
    shutil.copytree(root, root.parent / "as it was", symlinks=True)
    return done


@pytest.fixture
def ready(first_run) -> Path:
    """The copy as its first run left it, in the same place: a .venv knows where it lies."""
    root = first_run.root
    shutil.rmtree(root)
    shutil.copytree(root.parent / "as it was", root, symlinks=True)
    return root


@pytest.fixture(scope="module")
def quick(first_run, tmp_path_factory) -> dict[str, str]:
    """What makes a run's venv quick to make."""
    (library,) = (first_run.root.parent / "as it was" / ".venv").glob("**/site-packages")
    folder = tmp_path_factory.mktemp("quick")
    (folder / "venv").mkdir()
    (folder / "venv" / "__init__.py").touch()
    (folder / "venv" / "__main__.py").write_text(VENV_STAND_IN.format(pip=str(library)))
    return {"PYTHONPATH": str(folder)}


def surroundings(**more: str) -> dict[str, str]:
    """No network, no system packages: neither an index nor apt-get is found."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("CHALK_", "PIP_", "PYTHON"))}
    kept.pop("DJANGO_SETTINGS_MODULE", None)
    return kept | {"PIP_CONFIG_FILE": os.devnull, "PIP_NO_INDEX": "1", "PATH": "/nonexistent"} | more


def start(copy: Path, *arguments: str, python: Path = BASE_PYTHON, **more: str) -> subprocess.Popen:
    return subprocess.Popen(
        [python, "manage.py", *arguments],
        cwd=copy,
        env=surroundings(**more),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def run(copy: Path, *arguments: str, **more) -> subprocess.CompletedProcess:
    process = start(copy, *arguments, **more)
    out, err = process.communicate(timeout=300)
    done = subprocess.CompletedProcess(process.args, process.returncode, out, err)
    done.root = copy
    return done


def assert_inside(done: subprocess.CompletedProcess, copy: Path, *arguments: str) -> None:
    assert done.returncode == 0, done.stderr
    assert done.stdout == f"inside {copy / '.venv'} {list(arguments)}\n"


def test_it_makes_the_venv_goes_into_it_and_does_nothing_the_next_time(first_run, ready):
    assert_inside(first_run, ready, "check", "--tag", "two words")
    stamp = ready / ".venv" / ".ready"
    written = stamp.stat().st_mtime_ns
    again = run(ready, "check")
    assert_inside(again, ready, "check")
    assert again.stderr == ""
    assert stamp.stat().st_mtime_ns == written
    assert not (ready / ".venv" / ".setting-up").exists()


def test_a_changed_list_of_packages_is_installed_without_making_the_venv_anew(ready):
    kept = ready / ".venv" / "kept"
    kept.touch()
    make_wheel(ready / "wheels", "another", {"another.py": ""})
    (ready / "requirements.txt").write_text("standin==1.0\nanother==1.0\n")
    assert_inside(run(ready, "check"), ready, "check")
    assert kept.exists()
    assert list(ready.glob(".venv/lib/*/site-packages/another.py"))


def test_a_venv_that_somebody_else_made_is_completed_not_destroyed(copy, quick):
    subprocess.run([BASE_PYTHON, "-m", "venv", "--without-pip", copy / ".venv"], check=True)
    own_work = copy / ".venv" / "own-work"
    own_work.touch()
    assert_inside(run(copy, "check", **quick), copy, "check")
    assert own_work.exists()


def test_a_venv_of_another_python_is_made_anew(ready, quick):
    cfg = ready / ".venv" / "pyvenv.cfg"
    lines = [line if not line.startswith("version") else "version = 3.9.1" for line in cfg.read_text().splitlines()]
    cfg.write_text("\n".join(lines))
    (ready / ".venv" / "left-over").touch()
    done = run(ready, "check", **quick)
    assert_inside(done, ready, "check")
    assert "Making anew" in done.stderr
    assert not (ready / ".venv" / "left-over").exists()


def test_a_venv_whose_python_was_uninstalled_is_made_anew(ready, quick):
    for link in (ready / ".venv" / "bin").glob("python*"):
        link.unlink()
        link.symlink_to("/nonexistent/python")
    done = run(ready, "check", **quick)
    assert_inside(done, ready, "check")
    assert "Making anew" in done.stderr


def test_a_folder_that_is_no_venv_is_refused_and_left_as_it_is(copy):
    (copy / ".venv").mkdir()
    (copy / ".venv" / "letters.txt").write_text("dear")
    done = run(copy, "check")
    assert done.returncode == 1
    assert "is in the way: it holds files but no pyvenv.cfg" in done.stderr
    assert [path.name for path in (copy / ".venv").iterdir()] == ["letters.txt"]


def test_a_set_up_that_was_cut_off_is_begun_again_from_nothing(copy, quick):
    """Every state that a kill can leave: the marker with nothing, with a half venv, with a half-installed package."""
    (copy / ".venv" / "lib").mkdir(parents=True)
    (copy / ".venv" / ".setting-up").touch()
    assert_inside(run(copy, "check", **quick), copy, "check")
    (copy / ".venv" / ".ready").unlink()
    (copy / ".venv" / ".setting-up").touch()
    (installed,) = copy.glob(".venv/lib/*/site-packages/django/core/management.py")
    installed.write_text("half of it(")
    assert_inside(run(copy, "check", **quick), copy, "check")


@pytest.mark.skipif(os.name != "posix", reason="process groups are POSIX's")
def test_kill_9_at_any_moment_is_healed_by_the_next_run(copy, quick):
    """Any moment will do, so that no more is waited for than a while."""
    for seconds in (0.05, 0.5, 1.5):
        process = start(copy, "check")
        time.sleep(seconds)
        os.killpg(process.pid, signal.SIGKILL)
        process.communicate()
    assert_inside(run(copy, "check", **quick), copy, "check")


@pytest.mark.skipif(os.name != "posix", reason="the lock is handed on to children on POSIX only")
def test_a_run_waits_for_the_installer_that_a_killed_run_left_behind(copy, quick):
    process = start(copy, "check")
    while not (copy / ".venv" / "pyvenv.cfg").exists():  # python -m venv writes it first, and has seconds of work before it
        assert process.poll() is None
        time.sleep(0.01)
    os.kill(process.pid, signal.SIGKILL)
    done = run(copy, "check", **quick)
    assert_inside(done, copy, "check")
    assert "waiting for it" in done.stderr
    process.communicate()


def test_two_runs_at_once_both_end_well_and_only_one_sets_up(copy, quick):
    both = [start(copy, "check", **quick) for _ in range(2)]
    ended = [process.communicate(timeout=300) for process in both]
    assert [process.returncode for process in both] == [0, 0], ended
    assert sorted(err.count("Making ") for _, err in ended) == [0, 1]


def test_without_packages_to_be_had_it_names_the_wheels_folder_and_tries_again_later(copy, quick):
    wheels = copy / "wheels"
    wheels.rename(copy / "elsewhere")
    done = run(copy, "check", **quick)
    assert done.returncode == 1
    assert "“python3 -m pip download -d wheels -r requirements.txt”" in done.stderr
    assert not (copy / ".venv" / ".ready").exists()
    (copy / "elsewhere").rename(wheels)
    assert_inside(run(copy, "check", **quick), copy, "check")


def test_the_tests_own_packages_come_with_the_first_test_run_only(ready):
    make_wheel(ready / "wheels", "forthetests", {"forthetests.py": ""})
    (ready / "tests" / "requirements.txt").write_text("forthetests==1.0\n")
    assert_inside(run(ready, "check"), ready, "check")
    assert not list(ready.glob(".venv/lib/*/site-packages/forthetests.py"))
    assert_inside(run(ready, "test", "-x"), ready, "test", "-x")
    assert list(ready.glob(".venv/lib/*/site-packages/forthetests.py"))
    assert (ready / ".venv" / ".ready-tests").exists()


def test_a_python_without_ensurepip_gets_the_line_that_installs_it(copy, tmp_path):
    (tmp_path / "fake").mkdir()
    (tmp_path / "fake" / "ensurepip.py").write_text("raise ImportError('as Debian has it without python3-venv')")
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin" / "apt-get").write_text("#!/bin/sh\nexit 100\n")
    (tmp_path / "bin" / "apt-get").chmod(0o755)
    done = run(copy, "check", PYTHONPATH=str(tmp_path / "fake"), PATH=str(tmp_path / "bin"))
    assert done.returncode == 1
    assert "its modules venv and ensurepip are not installed" in done.stderr
    if "debian" in Path("/etc/os-release").read_text():
        assert f"install -y --no-install-recommends python3.{sys.version_info[1]}-venv" in done.stderr
    assert not (copy / ".venv").exists()


def test_a_missing_pango_is_said_and_stops_nothing(ready):
    """The stand-in venv has no WeasyPrint at all, which is what a broken one looks like to the probe."""
    done = run(ready, "demo")
    assert_inside(done, ready, "demo")
    assert done.stderr.count("Sheets can't be printed on this machine yet: the library Pango is missing.") == 1


def test_a_place_that_cannot_be_written_is_said_with_a_way_out(copy, tmp_path):
    (tmp_path / "a-file").touch()
    done = run(copy, "check", CHALK_VENV=str(tmp_path / "a-file" / "venv"))
    assert done.returncode == 1
    assert "could not be written" in done.stderr
    assert "CHALK_VENV" in done.stderr
    assert "Traceback" not in done.stderr


def test_an_older_python_gets_one_clear_sentence():
    """manage.py is read by whatever Python there is; the real old ones are tried where the machine has them."""
    text = (ROOT / "manage.py").read_text()
    script = "import sys; sys.version_info = (3, 9, 18, 'final', 0); sys.argv = ['manage.py']\n" + text
    done = subprocess.run([BASE_PYTHON, "-c", script], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.startswith("Chalk & Calendar needs Python 3.11 or newer; this is Python 3.9 (")
    assert done.stderr.count("\n") == 1
