"""Putting the pages on an address of this machine: what the commands start and demo share."""

import errno
import gc
import hashlib
import ipaddress
import socket
import sys
import threading
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path

import waitress.server
from django.conf import settings
from django.contrib.staticfiles.finders import get_finders
from django.core.management import CommandError, call_command

THREADS = 4


def is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def take_address(host: str, port: int) -> socket.socket:
    """Claim the address before any other work, so that a taken port is said at once. CommandError says what to do."""
    if settings.DEMO and not is_loopback(host):
        raise CommandError("The demo's passwords are printed for all to read, so it serves this machine only.")
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family, socket.SOCK_STREAM)
    if sys.platform != "win32":
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen(64)
    except (OSError, OverflowError) as problem:
        listener.close()
        raise CommandError(why_not(host, port, problem)) from problem
    return listener


def why_not(host: str, port: int, problem: Exception) -> str:
    number = getattr(problem, "errno", None)
    if number == errno.EADDRINUSE:
        return (
            f"Port {port} is taken: another program, or this one in another window, answers there. "
            f"End that one, or choose another port with --port {port + 1 if port < 65535 else 8000}."
        )
    if number == errno.EACCES:
        return f"Port {port} is kept for the system on this machine. Choose one above 1023, for instance --port 8000."
    if isinstance(problem, OverflowError):
        return f"There is no port {port}. Ports go from 1 to 65535; --port 8000 is the usual one."
    return f"{host} is no address of this machine. Use --host 127.0.0.1, or --host 0.0.0.0 for all its addresses."


def serve(listener: socket.socket, ready: Callable[[str], None]) -> None:
    """Answer on the claimed address until Ctrl-C; `ready` is called with the address once a first page has come."""
    gather_static_files()
    from workshop.wsgi import application

    trusted = proxy_in_front(listener)
    server = waitress.server.create_server(application, sockets=[listener], threads=THREADS, ident="workshop", **trusted)
    threading.Thread(target=server.run, daemon=True, name="pages").start()
    host, port = listener.getsockname()[:2]
    here = "127.0.0.1" if host in {"0.0.0.0", "::"} else host
    warm(f"http://{f'[{here}]' if ':' in here else here}:{port}/")
    ready(f"http://{f'[{here}]' if ':' in here else here}:{port}/")
    try:
        threading.Event().wait()
    except KeyboardInterrupt:
        print("\nStopped.")
    finally:
        server.close()


def proxy_in_front(listener: socket.socket) -> dict:
    """Whose word is taken for who calls and by which way: with HTTPS in front, a proxy on this machine and nobody else's."""
    if not settings.SECURE_PROXY_SSL_HEADER:
        return {}
    loopback = "::1" if listener.family == socket.AF_INET6 else "127.0.0.1"
    return {"trusted_proxy": loopback, "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto"}}


def warm(address: str) -> None:
    """Ask for the first page once, so that the person who comes next does not wait for templates and the database."""
    try:
        # Said to have come by HTTPS, so that a workshop behind HTTPS answers with its page, not with the way there.
        asked = urllib.request.Request(address, headers={"X-Forwarded-Proto": "https"})
        with urllib.request.urlopen(asked, timeout=30) as answer:
            answer.read()
    except urllib.error.HTTPError as answer:
        if answer.code >= 500:
            raise CommandError(f"The first page came back as an error ({answer.code}); the lines above say why.") from None
    from workshop.drawn_quickly import make_ready

    make_ready()
    set_aside()


def set_aside() -> None:
    """Leave what is loaded by now out of each later look for garbage: to look through all code took longer than a page."""
    gc.collect()
    gc.freeze()


def gather_static_files() -> None:
    """Copy styles, scripts and fonts to where they are served from under hashed names, if any has changed."""
    found = hashlib.sha256()
    for finder in get_finders():
        for name, storage in finder.list([]):
            facts = Path(storage.path(name)).stat()
            found.update(f"{name} {facts.st_size} {facts.st_mtime_ns}\n".encode())
    mark = Path(settings.STATIC_ROOT) / ".gathered"
    if mark.exists() and mark.read_text(encoding="ascii") == found.hexdigest():
        return
    call_command("collectstatic", interactive=False, clear=True, verbosity=0)
    mark.write_text(found.hexdigest(), encoding="ascii")


def own_address() -> str | None:
    """This machine's address in the local network. No packet is sent: connecting a UDP socket only picks the way out."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # a documentation address, RFC 5737
        except OSError:
            return None
        address = probe.getsockname()[0]
    return None if is_loopback(address) or address == "0.0.0.0" else address
