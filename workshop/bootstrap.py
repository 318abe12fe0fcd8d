"""What happens before Django is there: an own .venv with the packages of requirements.txt, then over into it.

Standard library only. `enter` is called first thing by manage.py. Its promises:

- `.venv/.ready` is written last and says what was installed; while it is right, nothing is looked at twice.
- One run at a time sets up. The lock is the kernel's, so no crash leaves it behind, and the installer holds it too.
- A set-up that was cut off (`.venv/.setting-up` is still there) is begun again from nothing.
- A folder without pyvenv.cfg is not ours, and is left alone.
- The Python that the machine came with is never written to.
"""

import contextlib
import hashlib
import importlib
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from workshop import machine
from workshop.locks import only_one
from workshop.machine import CannotSetUp, say

ROOT = Path(__file__).resolve().parent.parent
WHEELS = ROOT / "wheels"
MAIN_LIST = ROOT / "requirements.txt"
TESTS_LIST = ROOT / "tests" / "requirements.txt"
READY = ".ready"
TESTS_READY = ".ready-tests"
SETTING_UP = ".setting-up"
LOCK = ".lock"
PRINTS = {"demo", "start", "jobsheet", "test"}
POSIX = os.name == "posix"


def enter(argv: list[str], root: Path = ROOT) -> None:
    """Return inside the workshop's own .venv, set up as the lists of packages say; start anew in it if need be."""
    verb = argv[1] if len(argv) > 1 else "help"
    choose_surroundings(verb)
    venv = venv_folder(root)
    try:
        make_ready(venv, root, with_tests=verb == "test")
        if Path(sys.prefix).resolve() != venv.resolve():
            go_into(venv, argv)
        if verb in PRINTS:
            machine.make_printing_work(venv_python(venv), venv / ".prints")
        if verb == "test":
            machine.make_browser_there(venv_python(venv), venv / ".drives")
    except CannotSetUp as problem:
        sys.exit(f"\n{problem}")
    except KeyboardInterrupt:
        sys.exit("\nStopped. Run the same command again: it starts over where it must.")


def choose_surroundings(verb: str) -> None:
    """The demo has its own data, the tests their own settings; both are settled before settings are read."""
    if verb == "demo":
        os.environ["CHALK_DEMO"] = "1"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings" if verb == "test" else "workshop.settings")


def venv_folder(root: Path) -> Path:
    return Path(os.environ.get("CHALK_VENV") or root / ".venv").absolute()


def venv_python(venv: Path) -> Path:
    return venv / "bin" / "python" if POSIX else venv / "Scripts" / "python.exe"


def go_into(venv: Path, argv: list[str]) -> None:
    """Run the same command again with the .venv's Python, in place of this process where the system can do that."""
    python = str(venv_python(venv))
    if os.environ.get("CHALK_WENT_INTO") == str(os.getpid()):
        sys.exit(f"{python} does not run as the Python of {venv}. Delete that folder and run the command again.")
    os.environ["CHALK_WENT_INTO"] = str(os.getpid())
    command = [python, *argv]
    sys.stdout.flush()
    if POSIX:
        os.execv(python, command)
    with contextlib.suppress(KeyboardInterrupt):  # the child hears Ctrl-C as well, and answers for both
        sys.exit(subprocess.call(command))
    sys.exit(130)


# -- what is wanted, and whether it is there


def fingerprint(venv: Path, *lists: Path) -> str:
    """What a stamp holds: the lists of packages, the Python, the system and the place."""
    parts = [path.read_bytes() for path in lists]
    parts += [text.encode() for text in ("{}.{}".format(*sys.version_info), sys.platform, str(venv))]
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


def wanted(venv: Path, root: Path, with_tests: bool) -> dict[str, tuple[Path, ...]]:
    main, tests = root / MAIN_LIST.relative_to(ROOT), root / TESTS_LIST.relative_to(ROOT)
    stamps = {READY: (main,)}
    if with_tests:
        stamps[TESTS_READY] = (main, tests)
    return stamps


def is_stamped(venv: Path, name: str, lists: tuple[Path, ...]) -> bool:
    try:
        return (venv / name).read_text(encoding="ascii").strip() == fingerprint(venv, *lists)
    except (OSError, UnicodeDecodeError):
        return False


def make_ready(venv: Path, root: Path, *, with_tests: bool) -> None:
    """Install what a stamp does not vouch for; raise CannotSetUp with the remedy where that is not possible."""
    stamps = wanted(venv, root, with_tests)
    if runs(venv) and all(is_stamped(venv, name, lists) for name, lists in stamps.items()):
        return
    refuse_foreign_folder(venv)
    machine.make_venv_possible()
    try:
        venv.mkdir(parents=True, exist_ok=True)
        with only_one(venv / LOCK, "Another run is setting up; waiting for it …") as lock:
            set_up(venv, root, stamps, lock)
    except OSError as problem:
        raise CannotSetUp(
            f"{venv} could not be written: {problem.strerror or problem}. Make room or make it writable, or name "
            "another folder in the environment variable CHALK_VENV, and run the command again."
        ) from problem


def set_up(venv: Path, root: Path, stamps: dict[str, tuple[Path, ...]], lock: int) -> None:
    began = time.monotonic()
    if (venv / SETTING_UP).exists() or not runs(venv):
        lay_anew(venv, lock)
    if not has_pip(venv):
        run([str(venv_python(venv)), "-I", "-m", "ensurepip", "--default-pip"], lock)
    missing = [(name, lists) for name, lists in stamps.items() if not is_stamped(venv, name, lists)]
    if missing:
        install(venv, root, missing[-1][1], lock)  # the last holds the lists of those before it
        for name, lists in missing:
            stamp(venv / name, fingerprint(venv, *lists))
        say(f"Packages are in place ({time.monotonic() - began:.0f} s).")


def runs(venv: Path) -> bool:
    """Whether the folder has a Python of this version that can still find its home."""
    try:
        lines = (venv / "pyvenv.cfg").read_text(encoding="utf-8").splitlines()
    except OSError:
        return False
    facts = {key.strip(): value.strip() for key, _, value in (line.partition("=") for line in lines)}
    same = facts.get("version", "").split(".")[:2] == [str(part) for part in sys.version_info[:2]]
    return same and venv_python(venv).exists() and Path(facts.get("home", "")).is_dir()


def has_pip(venv: Path) -> bool:
    library = venv / "lib" / "python{}.{}".format(*sys.version_info) if POSIX else venv / "Lib"
    return (library / "site-packages" / "pip" / "__main__.py").exists()


# -- making it so


def refuse_foreign_folder(venv: Path) -> None:
    if not venv.exists() or (venv / "pyvenv.cfg").exists() or (venv / SETTING_UP).exists():
        return
    if any(path.name != LOCK for path in venv.iterdir()):
        raise CannotSetUp(
            f"{venv} is in the way: it holds files but no pyvenv.cfg, so it was not made for Python packages, "
            "and it is not deleted. Move it elsewhere and run the command again."
        )


def lay_anew(venv: Path, lock: int) -> None:
    """Empty the folder but for what says it is ours, and make a fresh environment in it."""
    refuse_foreign_folder(venv)
    had = (venv / "pyvenv.cfg").exists()
    (venv / SETTING_UP).touch()
    for path in venv.iterdir():
        if path.name in {LOCK, SETTING_UP, "pyvenv.cfg"}:
            continue
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink()
    say(f"{'Making anew' if had else 'Making'} {venv} for Python {sys.version_info[0]}.{sys.version_info[1]} …")
    made = run([sys.executable, "-m", "venv", str(venv)], lock)
    if made.returncode or not runs(venv):
        raise CannotSetUp(f"{tail(made.stdout)}\n{venv} could not be made; the lines above say why.")


def install(venv: Path, root: Path, lists: tuple[Path, ...], lock: int) -> None:
    """Install with the .venv's own pip: from the folder wheels/ if that has everything, else from the index."""
    (venv / SETTING_UP).touch()
    listed = lists[-1]
    pip = [str(venv_python(venv)), "-I", "-m", "pip", "install", "--quiet", "--no-input", "--disable-pip-version-check"]
    for path in lists:
        pip += ["-r", str(path)]
    wheels = root / WHEELS.relative_to(ROOT)
    tries = [pip]
    if wheels.is_dir():
        tries = [[*pip, "--no-index", "--find-links", str(wheels)], [*pip, "--find-links", str(wheels)]]
    say(f"Installing the packages of {listed.relative_to(root)} …")
    for command in tries:
        done = run(command, lock)
        if done.returncode == 0:
            return
    if done.returncode > 0:  # pip gave up by itself and took back what it had begun
        (venv / SETTING_UP).unlink()
    fetch = " ".join(["python3 -m pip download -d wheels", *(f"-r {path.relative_to(root)}" for path in lists)])
    raise CannotSetUp(
        f"{tail(done.stdout)}\nThe packages of {listed.relative_to(root)} could not be installed. If this machine has "
        f"no network, run “{fetch}” on one that has, with the same system and the same Python, put the folder wheels "
        f"beside manage.py ({wheels}), and run the command again."
    )


def run(command: list[str], lock: int) -> subprocess.CompletedProcess[str]:
    """Run a step of the set-up, which holds the lock as well: if we are killed, the next run waits for it to end."""
    surroundings = {**os.environ, "PIP_USER": "0", "PYTHONUTF8": "1"}
    surroundings.pop("PYTHONHOME", None)
    return subprocess.run(
        command,
        env=surroundings,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
        pass_fds=(lock,) if POSIX else (),
        check=False,
    )


def stamp(path: Path, text: str) -> None:
    """Write the stamp so that a power cut leaves the whole of it or none; then the set-up counts as done."""
    draft = path.with_name(f"{path.name}-{os.getpid()}")
    with draft.open("w", encoding="ascii") as file:
        file.write(text + "\n")
        file.flush()
        os.fsync(file.fileno())
    with contextlib.suppress(FileNotFoundError):
        (path.parent / SETTING_UP).unlink()
    draft.replace(path)
    if POSIX:
        folder = os.open(path.parent, os.O_RDONLY)
        os.fsync(folder)
        os.close(folder)
    importlib.invalidate_caches()


def tail(text: str, lines: int = 12) -> str:
    return "\n".join(text.strip().splitlines()[-lines:])
