"""A wire between browser and server that can be cut: the server is down, or its reply is lost after it has done its work."""

import contextlib
import socket
import threading


class Wire:
    """Listens on a port of its own and passes everything on to `upstream`; one request a connection."""

    def __init__(self, upstream: tuple[str, int]):
        self.upstream = upstream
        self.down = False
        self.replies_to_lose = 0
        self.posts = 0
        self.turned_away = 0
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port = self._listener.getsockname()[1]
        threading.Thread(target=self._listen, daemon=True).start()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def close(self) -> None:
        self._listener.close()

    def _listen(self) -> None:
        while True:
            try:
                browser, _ = self._listener.accept()
            except OSError:
                return
            threading.Thread(target=self._serve, args=(browser,), daemon=True).start()

    def _serve(self, browser: socket.socket) -> None:
        with contextlib.suppress(OSError), browser:
            if self.down:
                self.turned_away += 1
                return
            request = self._whole(browser)
            if not request:
                return
            is_taking = request.startswith(b"POST ") and any(each in request[:80] for each in (b"/take/ ", b"/cash/ "))
            self.posts += is_taking
            with socket.create_connection(self.upstream) as server:
                server.sendall(request.replace(b"Connection: keep-alive", b"Connection: close", 1))
                reply = b"".join(iter(lambda: server.recv(65536), b""))
            if is_taking and self.replies_to_lose:
                self.replies_to_lose -= 1
                return
            if not self.down:
                browser.sendall(reply)

    @staticmethod
    def _whole(browser: socket.socket) -> bytes:
        """The request with its body."""
        read = b""
        while b"\r\n\r\n" not in read:
            part = browser.recv(65536)
            if not part:
                return b""
            read += part
        head, _, body = read.partition(b"\r\n\r\n")
        length = next((int(line.split(b":")[1]) for line in head.split(b"\r\n") if line.lower().startswith(b"content-length:")), 0)
        while len(body) < length:
            body += browser.recv(65536)
        return head + b"\r\n\r\n" + body
