"""What is answered when a page can't be: the disk is full, the book is busy, too much was sent, or the program is at fault."""

import errno
import logging
import sys

from django.core.exceptions import PermissionDenied, RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.db import OperationalError
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.defaults import bad_request, server_error

FULL = "The disk of the workshop's machine is full."
BUSY = "The workshop's book is busy with something else."
OUT_OF_REACH = "The workshop's book can't be read or written just now."
WHAT_TO_DO = {
    FULL: "Make room on it: take old files elsewhere, not the workshop's own folder. Then send this again.",
    BUSY: "Wait a moment, then send this again. If it stays so, look whether a copy of the book is being made.",
    OUT_OF_REACH: "Look whether its disk is there and may be written to, then send this again.",
}
NOT_SENT_ON = ("password", "again", "old")
TOO_MUCH = (RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent)


def page(request: HttpRequest) -> HttpResponse:
    """For an error that nothing has caught: 503 with what to do where the machine is at fault, else the page for our own."""
    why = why_out_of_order(sys.exc_info()[1])
    if not why:
        return server_error(request)
    shown = {"why": why, "what_to_do": WHAT_TO_DO[why], "typed": typed_into(request), "address": request.get_full_path()}
    headers = {"Retry-After": "5", "Cache-Control": "private, no-store"}
    return HttpResponse(render_to_string("503.html", shown), status=503, headers=headers)


def why_out_of_order(broken: BaseException | None) -> str:
    """SQLite's own words: sqlite.org/rescode.html names SQLITE_FULL, SQLITE_BUSY, SQLITE_LOCKED and their like."""
    if isinstance(broken, OSError) and broken.errno in (errno.ENOSPC, errno.EDQUOT):
        return FULL
    if not isinstance(broken, OperationalError):
        return ""
    said = str(broken)
    if "is full" in said:
        return FULL
    if "locked" in said:
        return BUSY
    known = ("disk I/O error", "unable to open database file", "readonly database")
    return OUT_OF_REACH if any(each in said for each in known) else ""


def typed_into(request: HttpRequest) -> list[tuple[str, str]]:
    """What a form held, to be sent once more; a password is typed anew."""
    if request.method != "POST" or any(name in NOT_SENT_ON for name in request.POST):
        return []
    return [(name, value) for name, values in request.POST.lists() for value in values]


def refused(request: HttpRequest, exception: Exception) -> HttpResponse:
    """For a request that can't be taken as it was sent."""
    if isinstance(exception, TOO_MUCH):
        return HttpResponse(render_to_string("413.html"), status=413)
    return bad_request(request, exception)


class InOneLine(logging.Filter):
    """Whoever is refused, or sends too much, has found no fault: no traceback is written into the log."""

    def filter(self, record: logging.LogRecord) -> bool:
        if record.exc_info and isinstance(record.exc_info[1], (PermissionDenied, *TOO_MUCH)):
            record.exc_info = record.exc_text = None
        return True
