"""The engine stands alone: no web framework, no app of the workshop, one way of imports."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ENGINE = ROOT / "drafting" / "engine"
SOURCES = sorted(ENGINE.rglob("*.py"))
STRANGERS = ("django", "workshop", "clients", "orders", "weasyprint", "scipy", "numpy", "tests")


def imported_names(source: str, package: list[str]) -> set[str]:
    """Return the full name of every module that `source`, a module of `package`, imports, wherever in it."""
    names = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            names.add(".".join([*base, node.module] if node.module else base))
        elif isinstance(node, ast.Call) and getattr(node.func, "attr", getattr(node.func, "id", "")) in (
            "import_module",
            "__import__",
        ):
            names.update(arg.value for arg in node.args if isinstance(arg, ast.Constant))
    return names


def package_of(path: Path) -> list[str]:
    return list(path.relative_to(ROOT).parent.parts)


def test_the_walk_reads_every_way_to_import():
    source = (
        "import django.db\nfrom workshop import length\nfrom ..models import KeptDraft\nfrom . import curve\n"
        "def late():\n    import importlib\n    importlib.import_module('orders.models')\n"
    )
    assert imported_names(source, ["drafting", "engine"]) == {
        "django.db", "workshop", "drafting.models", "drafting.engine", "importlib", "orders.models",
    }  # fmt: skip


def test_the_walk_finds_the_engine():
    assert {"point.py", "curve.py", "path.py", "solve.py", "pens.py"} <= {path.name for path in SOURCES}


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_no_module_of_the_engine_imports_a_stranger(path):
    names = imported_names(path.read_text(encoding="utf-8"), package_of(path))
    # Laying counts in arrays and pulls lays taut by a linear programme; the drafting itself does without.
    strangers = set(STRANGERS) - ({"numpy", "scipy"} if path.is_relative_to(ENGINE / "lay") else set())
    assert not {name for name in names if name.split(".")[0] in strangers}


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_of_its_own_app_a_module_imports_only_the_engine(path):
    names = imported_names(path.read_text(encoding="utf-8"), package_of(path))
    own = {name for name in names if name.split(".")[0] == "drafting"}
    assert all(name.startswith("drafting.engine") for name in own), own


def test_the_whole_engine_imports_where_django_and_the_apps_are_missing():
    blocked = ("django", "workshop", "clients", "orders", "weasyprint")
    modules = [".".join(path.relative_to(ROOT).with_suffix("").parts) for path in SOURCES]
    modules = [name.removesuffix(".__init__") for name in modules]
    script = f"""
import importlib, sys
class Wall:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {blocked!r}:
            raise ImportError("behind the wall: " + name)
sys.meta_path.insert(0, Wall())
try:
    import django
except ImportError:
    pass
else:
    sys.exit("the wall has a hole")
for name in {modules!r}:
    importlib.import_module(name)
print(len([name for name in sys.modules if name.startswith("drafting.engine")]))
"""
    run = subprocess.run([sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stderr
    assert int(run.stdout) == len(modules)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_no_file_of_the_engine_reaches_three_hundred_lines(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) < 300
