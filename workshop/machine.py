"""What the machine has beside Python: the libraries that print, a Chromium for the tests, a way to make a .venv.

Standard library only: the bootstrap needs it before any package is there. On Debian and Ubuntu, and only for root,
missing system packages are installed, with a line that says so; everywhere else the exact command is printed.
"""

import importlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

PRINTING = ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")
BROWSER = ("chromium", "libatomic1")  # the second is for Playwright's driver
BROWSER_NAMES = ("chromium", "chromium-browser", "google-chrome")


class CannotSetUp(Exception):
    """Set-up can't go on; the text says why and what to do."""


def say(text: str) -> None:
    """Tell the person at the terminal; not on the standard output, which belongs to the command's result."""
    print(text, file=sys.stderr, flush=True)


# -- Debian's packages


def is_debian() -> bool:
    """Whether this is Debian, Ubuntu, or says it is like one of them."""
    try:
        lines = Path("/etc/os-release").read_text(encoding="utf-8").splitlines()
    except OSError:
        return False
    words = " ".join(line.partition("=")[2].strip('"') for line in lines if line.startswith(("ID=", "ID_LIKE=")))
    return bool({"debian", "ubuntu"} & set(words.split())) and shutil.which("apt-get") is not None


def may_install() -> bool:
    return is_debian() and os.geteuid() == 0


def apt_line(packages: tuple[str, ...]) -> str:
    return f"sudo apt-get update && sudo apt-get install -y --no-install-recommends {' '.join(packages)}"


def apt_install(packages: tuple[str, ...], why: str) -> bool:
    """Install Debian's packages as root; False, with apt's last words on the terminal, where that fails."""
    say(f"Installing {', '.join(packages)} with apt-get, {why} …")
    calm = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    install = ["apt-get", "install", "-y", "-q", "--no-install-recommends", "-o", "DPkg::Lock::Timeout=120", *packages]
    for command in (["apt-get", "update", "-q"], install):
        done = subprocess.run(
            command, env=calm, stdin=subprocess.DEVNULL, capture_output=True, encoding="utf-8", errors="replace"
        )
    if done.returncode:
        say("\n".join((done.stdout + done.stderr).strip().splitlines()[-6:]))
    return done.returncode == 0


# -- a .venv


def can_make_venv() -> bool:
    importlib.invalidate_caches()
    try:
        importlib.import_module("ensurepip")
        importlib.import_module("venv")
    except ImportError:
        return False
    return True


def make_venv_possible() -> None:
    """Debian ships Python without the part that makes a .venv; install that part, or say how."""
    if can_make_venv():
        return
    package = ("python{}.{}-venv".format(*sys.version_info),)
    if may_install() and sys.base_prefix == "/usr":
        apt_install(package, "so that Python can make a folder for packages")
        if can_make_venv():
            return
    remedy = f"Run “{apt_line(package)}”" if is_debian() else "Install a Python that has its ensurepip module"
    raise CannotSetUp(
        f"This Python ({sys.executable}) cannot make a folder for packages: its modules venv and ensurepip are not "
        f"installed. {remedy}, then run the same command again."
    )


# -- printing


def can_print(python: Path | str = sys.executable) -> bool:
    """Whether WeasyPrint finds its libraries. Asked in a child process, since a broken library ends the asker."""
    asked = subprocess.run([str(python), "-c", "import weasyprint"], capture_output=True, stdin=subprocess.DEVNULL)
    return asked.returncode == 0


def printing_advice() -> str:
    if is_debian():
        return f"Run “{apt_line(PRINTING)}”, then start again."
    return "Install the library Pango (1.44 or newer) as WeasyPrint's own pages say for this system, then start again."


def make_printing_work(python: Path, mark: Path) -> None:
    """Install what printing needs, or say that printing is off and how to mend it; the rest works without."""
    if mark.exists():
        return
    works = can_print(python)
    if not works and may_install():
        apt_install(PRINTING, "which the printed sheets need")
        works = can_print(python)
    if works:
        mark.touch()
    else:
        say(f"Sheets can't be printed on this machine yet: the library Pango is missing. {printing_advice()}")


# -- a browser, for the tests


def find_chromium() -> str | None:
    """The Chromium to test with: the one named in WORKSHOP_CHROMIUM, the system's, or one that Playwright keeps."""
    named = os.environ.get("WORKSHOP_CHROMIUM")
    for name in (named, *BROWSER_NAMES) if named else BROWSER_NAMES:
        found = shutil.which(name)
        if found:
            return found
    kept = Path(os.environ.get("PLAYWRIGHT_BROWSERS_PATH") or Path.home() / ".cache" / "ms-playwright")
    return next((str(path) for path in sorted(kept.glob("chromium-*/chrome-linux*/chrome"), reverse=True)), None)


def can_drive(python: Path) -> bool:
    """Whether Playwright's driver, a program of its own, finds its libraries."""
    asked = subprocess.run([str(python), "-m", "playwright", "--version"], capture_output=True, stdin=subprocess.DEVNULL)
    return asked.returncode == 0


def make_browser_there(python: Path, mark: Path) -> None:
    """For root on Debian, install what the browser tests need; elsewhere say what is missing, if the run won't."""
    if mark.exists() and find_chromium():
        return
    if may_install() and not (find_chromium() and can_drive(python)):
        apt_install(BROWSER, "which the browser tests drive (this takes a minute or two)")
    if can_drive(python):
        mark.touch()
    else:
        say(f"Browser tests can't be driven on this machine: Playwright's driver does not run. {browser_advice()}")


def browser_advice() -> str:
    line = f"run “{apt_line(BROWSER)}”" if is_debian() else "install Chromium"
    return f"To run them, {line}, or name one in WORKSHOP_CHROMIUM."
