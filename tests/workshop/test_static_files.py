"""Static files as they are served: under hashed names, every file that a page or style names being there."""

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.management import call_command

ROOT = Path(__file__).resolve().parents[2]
NAMED = re.compile(r"{%\s*static\s+['\"]([^'\"]+)['\"]\s*%}")


def test_every_static_file_that_a_template_names_is_there():
    named = {(path.name, name) for path in ROOT.glob("templates/**/*.html") for name in NAMED.findall(path.read_text())}
    assert named, "no template names a static file: the pattern is wrong"
    missing = sorted(pair for pair in named if finders.find(pair[1]) is None)
    assert missing == []


def test_every_style_and_script_can_be_gathered_under_hashed_names(settings, tmp_path):
    """Gathering fails where a style points to a font or picture that is not there."""
    settings.STATIC_ROOT = tmp_path
    settings.STORAGES = settings.STORAGES | {
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.ManifestStaticFilesStorage"}
    }
    call_command("collectstatic", interactive=False, verbosity=0)
    assert (tmp_path / "staticfiles.json").exists()
    assert re.fullmatch(r".*/css/base\.[0-9a-f]{12}\.css", staticfiles_storage.url("css/base.css"))


@pytest.mark.parametrize("changed", [False, True])
def test_they_are_gathered_again_only_when_one_has_changed(settings, tmp_path, changed):
    from workshop import serving

    own = tmp_path / "own"
    own.mkdir()
    (own / "a.css").write_text("a")
    settings.STATICFILES_DIRS = [own]
    settings.STATIC_ROOT = tmp_path / "gathered"
    finders.get_finder.cache_clear()
    serving.gather_static_files()
    (settings.STATIC_ROOT / "a.css").write_text("not touched since")
    if changed:
        (own / "a.css").write_text("other")
    serving.gather_static_files()
    finders.get_finder.cache_clear()
    assert (settings.STATIC_ROOT / "a.css").read_text() == ("other" if changed else "not touched since")
