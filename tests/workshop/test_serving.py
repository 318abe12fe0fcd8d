"""Taking an address and answering on it, as start and demo do."""

import ipaddress
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.core.management import CommandError

from workshop import serving, wsgi

ROOT = Path(__file__).resolve().parents[2]
PATIENCE = 300
"""Seconds; a machine with much else to do takes its time, and a wait costs nothing when it comes."""


@pytest.fixture(scope="module")
def surroundings(tmp_path_factory) -> dict[str, str]:
    """One empty workshop for this file: the first to start it makes its tables from nothing, which takes a while."""
    return os.environ | {"CHALK_DATA": str(tmp_path_factory.mktemp("data")), "DJANGO_SETTINGS_MODULE": "workshop.settings"}


@pytest.fixture
def taken_port():
    with socket.create_server(("127.0.0.1", 0)) as other:
        yield other.getsockname()[1]


def test_a_taken_port_is_said_with_the_next_one_to_try(taken_port):
    with pytest.raises(CommandError, match=f"Port {taken_port} is taken.*--port {taken_port + 1}"):
        serving.take_address("127.0.0.1", taken_port)


@pytest.mark.parametrize("port", [65_536, 1_000_000, -1])
def test_a_port_that_does_not_exist_is_said(port):
    with pytest.raises(CommandError, match=f"There is no port {port}"):
        serving.take_address("127.0.0.1", port)


def test_an_address_of_another_machine_is_said():
    # 192.0.2.0/24 is set aside for documentation (RFC 5737), so it is nobody's.
    with pytest.raises(CommandError, match="192.0.2.7 is no address of this machine"):
        serving.take_address("192.0.2.7", 0)


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.20", "workshop.example"])
def test_the_demo_takes_no_address_that_others_can_reach(settings, host):
    settings.DEMO = True
    with pytest.raises(CommandError, match="serves this machine only"):
        serving.take_address(host, 0)


def test_the_demo_answers_nobody_on_another_machine_whatever_server_runs_it():
    answers = []
    pages = wsgi.this_machine_only(lambda environ, start: [b"pages"])
    note = lambda status, headers: answers.append(status)  # noqa: E731
    assert pages({"REMOTE_ADDR": "127.0.0.1"}, note) == [b"pages"]
    assert pages({"REMOTE_ADDR": "::1"}, note) == [b"pages"]
    assert answers == []
    for stranger in ({"REMOTE_ADDR": "192.168.1.20"}, {"REMOTE_ADDR": ""}, {}):
        assert b"only on the machine" in pages(stranger, note)[0]
    assert answers == ["403 Forbidden"] * 3


def test_start_serves_an_empty_workshop_whose_first_page_sets_it_up(surroundings):
    process = subprocess.Popen(
        [sys.executable, "manage.py", "start", "--port", str(free_port())],
        cwd=ROOT,
        env=surroundings,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        line = process.stdout.readline()
        address = re.fullmatch(r"The workshop is open at (http://127\.0\.0\.1:\d+/)\n", line)
        assert address, line + process.stderr.read()
        with urllib.request.urlopen(address[1], timeout=PATIENCE) as page:
            text = page.read().decode()
        assert page.url.endswith("/set-up/")
        style = re.search(r'href="(/static/css/[^"]+)"', text)[1]
        with urllib.request.urlopen(address[1].rstrip("/") + style, timeout=PATIENCE) as sheet:
            assert "immutable" in sheet.headers["Cache-Control"]
        with pytest.raises(urllib.error.HTTPError, match="400"):
            urllib.request.urlopen(urllib.request.Request(address[1], headers={"Host": "elsewhere.example"}), timeout=PATIENCE)
    finally:
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        process.communicate(timeout=PATIENCE)
    assert process.returncode == 0


def test_start_is_not_open_to_the_network_before_it_has_an_owner(surroundings):
    command = [sys.executable, "manage.py", "start", "--host", "0.0.0.0", "--port", str(free_port())]
    done = subprocess.run(command, cwd=ROOT, env=surroundings, capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert done.returncode == 1
    assert "This workshop has no owner yet" in done.stderr


def test_behind_https_it_answers_its_proxy_and_sends_everybody_else_to_https(surroundings):
    behind_https = surroundings | {"CHALK_HTTPS": "1", "CHALK_HOSTS": "shop.example"}
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, "manage.py", "start", "--port", str(port)],
        cwd=ROOT,
        env=behind_https,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        assert process.stdout.readline().startswith("The workshop is open at"), process.stderr.read()
        address = f"http://127.0.0.1:{port}/set-up/"
        by_https = {"Host": "shop.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": "203.0.113.9"}
        with urllib.request.urlopen(urllib.request.Request(address, headers=by_https), timeout=PATIENCE) as page:
            assert page.status == 200
            assert "max-age" in page.headers["Strict-Transport-Security"]
        plain = urllib.request.Request(address, headers={"Host": "shop.example"})
        with pytest.raises(urllib.error.HTTPError, match="301") as sent_on:
            urllib.request.build_opener(Stay).open(plain, timeout=PATIENCE)
        assert sent_on.value.headers["Location"] == "https://shop.example/set-up/"
        sent_on.value.close()
    finally:
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        process.communicate(timeout=PATIENCE)


@pytest.mark.parametrize("family", [socket.AF_INET, socket.AF_INET6])
def test_only_a_proxy_on_this_machine_is_believed_and_only_where_there_is_one(settings, family):
    listener = SimpleNamespace(family=family)
    settings.SECURE_PROXY_SSL_HEADER = None
    assert serving.proxy_in_front(listener) == {}
    settings.SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    assert ipaddress.ip_address(serving.proxy_in_front(listener)["trusted_proxy"]).is_loopback


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *args, **kwargs):
        return None


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as probe:
        return probe.getsockname()[1]
