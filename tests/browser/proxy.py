"""A line between phone and server that can be cut, lose the answers on the way back, or stall: open, and nothing comes."""

import select
import socket
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Literal

Mode = Literal["through", "cut", "lose answers", "stall", "stall in the answer"]
MORE_S = 0.2  # a server may send the body of an answer after its head


class Line:
    """Listens on a port of its own and passes bytes to the server's; `mode` may change at any time.

    A connection that stalled stays so until the phone gives it up, also when `mode` is "through" again.
    """

    def __init__(self, server_port: int) -> None:
        self.server_port = server_port
        self.mode: Mode = "through"
        self.lost = 0
        self.answered_bytes = 0
        self.stalled: list[str] = []
        self._asked: dict[socket.socket, bytes] = {}
        self._silent: set[socket.socket] = set()  # a server that hangs up is not heard there either
        self.on_lost: Callable[[], None] = lambda: None
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port = int(self._listener.getsockname()[1])
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        self._listener.close()

    def _accept(self) -> None:
        while True:
            try:
                phone, _ = self._listener.accept()
            except OSError:
                return
            threading.Thread(target=self._serve, args=(phone,), daemon=True).start()

    def _serve(self, phone: socket.socket) -> None:
        try:
            if self.mode == "cut":
                return
            with socket.create_connection(("127.0.0.1", self.server_port), timeout=20) as server:
                server.settimeout(None)
                threading.Thread(target=self._answers, args=(server, phone), daemon=True).start()
                while (data := phone.recv(65536)) and self.mode != "cut":
                    if self.mode == "stall":
                        self._stall(phone, data)
                        break
                    self._asked[server] = data
                    server.sendall(data)
        except OSError:
            pass
        finally:
            with suppress(OSError):
                phone.shutdown(socket.SHUT_RDWR)
            phone.close()

    def _answers(self, server: socket.socket, phone: socket.socket) -> None:
        with suppress(OSError):
            while data := server.recv(65536):
                if self.mode == "stall in the answer":
                    while select.select([server], [], [], MORE_S)[0] and (more := server.recv(65536)):
                        data += more
                    # The head and one byte of the body: never all, or the browser takes the connection for a good one.
                    phone.sendall(data[: min(data.find(b"\r\n\r\n") + 5, len(data) - 1)])
                    self._stall(phone, self._asked[server])
                    break
                if self.mode in ("cut", "lose answers"):
                    self.lost += 1
                    self.on_lost()
                    break
                self.answered_bytes += len(data)
                phone.sendall(data)
        if phone not in self._silent:
            with suppress(OSError):
                phone.shutdown(socket.SHUT_RDWR)

    def _stall(self, phone: socket.socket, asked: bytes) -> None:
        self._silent.add(phone)
        self.stalled.append(asked.split(b" HTTP", 1)[0].decode(errors="replace"))
        with suppress(OSError):
            while phone.recv(65536):
                pass
