"""A line between phone and server that can be cut, or lose the answers on the way back."""

import socket
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Literal

Mode = Literal["through", "cut", "lose answers"]


class Line:
    """Listens on a port of its own and passes bytes to the server's; `mode` may change at any time."""

    def __init__(self, server_port: int) -> None:
        self.server_port = server_port
        self.mode: Mode = "through"
        self.lost = 0
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
                threading.Thread(target=self._answers, args=(server, phone), daemon=True).start()
                while (data := phone.recv(65536)) and self.mode != "cut":
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
                if self.mode != "through":
                    self.lost += 1
                    self.on_lost()
                    break
                phone.sendall(data)
        with suppress(OSError):
            phone.shutdown(socket.SHUT_RDWR)
