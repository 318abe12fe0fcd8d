"""The application object for a web server: waitress in the two commands, any other where documented."""

import os
from collections.abc import Callable, Iterable

from django.conf import settings
from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "workshop.settings")

LOOPBACK = {"127.0.0.1", "::1"}


def this_machine_only(pages: Callable) -> Callable:
    """The demo's passwords are printed for all to read, so it answers nobody on another machine."""

    def answer(environ: dict, start_response: Callable) -> Iterable[bytes]:
        if environ.get("REMOTE_ADDR") in LOOPBACK:
            return pages(environ, start_response)
        start_response("403 Forbidden", [("Content-Type", "text/plain; charset=utf-8")])
        return ["The demo answers only on the machine that it runs on.\n".encode()]

    return answer


application = get_wsgi_application()
if settings.DEMO:
    application = this_machine_only(application)
