"""What a line that stalls gives to a browser: never a whole answer, and no end."""

import socket
import threading
from contextlib import closing

import pytest

from tests.browser.proxy import Line

ANSWERS = [b"HTTP/1.1 304 Not Modified\r\nETag: a\r\n\r\n", b"HTTP/1.1 200 OK\r\nContent-Length: 1\r\n\r\n1"]
SILENCE_S = 0.5


@pytest.mark.parametrize("answer", ANSWERS)
def test_an_answer_that_stalls_never_comes_whole_and_a_server_that_hangs_up_is_not_heard(answer: bytes) -> None:
    with socket.create_server(("127.0.0.1", 0)) as server, closing(Line(server.getsockname()[1])) as line:
        line.mode = "stall in the answer"
        hung_up = threading.Event()

        def answer_once() -> None:
            asked, _ = server.accept()
            with asked:
                asked.recv(1000)
                asked.sendall(answer)
            hung_up.set()

        threading.Thread(target=answer_once, daemon=True).start()
        with socket.create_connection(("127.0.0.1", line.port), timeout=10) as browser:
            browser.sendall(b"GET / HTTP/1.1\r\n\r\n")
            assert hung_up.wait(10)
            came = browser.recv(1000)
            browser.settimeout(SILENCE_S)
            with pytest.raises(TimeoutError):
                browser.recv(1000)
    assert came == answer[:-1]
    assert line.stalled == ["GET /"]
