"""The workshop's own settings, on a data folder that lives as long as the test run."""

import atexit
import os
import shutil
import tempfile

_FOLDER = tempfile.mkdtemp(prefix="chalk-tests-")
atexit.register(shutil.rmtree, _FOLDER, ignore_errors=True)
os.environ["CHALK_DATA"] = _FOLDER
os.environ.pop("CHALK_DEMO", None)

from workshop.settings import *  # noqa: E402, F403

# The tested database is a file, with the journal and the locks that the workshop has.
# Slow hashing and hashed file names are tested where they matter, not at every sign-in.
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
STATIC_ROOT.mkdir()  # noqa: F405
ALLOWED_HOSTS = ["testserver", "127.0.0.1", "localhost"]
