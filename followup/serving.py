"""Run the web application under a production WSGI server, with the clock's jobs in a process of their own."""

import multiprocessing
import os
import signal
import socket
from datetime import UTC, datetime

from granian import Granian
from granian.constants import Interfaces

from followup.config import HANDED_OVER, ConfigError, Settings, load
from followup.records import open_store

THREADS_PER_WORKER = 4


def serve(settings: Settings) -> None:
    """Serve until stopped. Raises `ConfigError` when something else listens on the port."""
    server = settings.server
    _check_port(server.host, server.port)
    os.environ[HANDED_OVER] = settings.model_dump_json()
    # A process, not a thread: the server forks its workers, and a forked copy of a running scheduler hangs.
    clock = multiprocessing.get_context("spawn").Process(target=run_jobs, daemon=True)
    if server.jobs:
        clock.start()
    try:
        Granian(
            "followup.web:create_app",
            factory=True,
            interface=Interfaces.WSGI,
            address=server.host,
            port=server.port,
            workers=server.workers,
            blocking_threads=THREADS_PER_WORKER,
            websockets=False,
        ).serve()
    finally:
        if server.jobs:
            clock.terminate()
            clock.join()


def run_jobs() -> None:
    """Run the clock's jobs until the serving process ends, however it ends."""
    from followup import jobs  # needed in this process only

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the serving process says when
    settings = load()
    scheduler = jobs.start(open_store(settings.server.database), settings, lambda: datetime.now(UTC))
    parent = multiprocessing.parent_process()
    assert parent is not None
    parent.join()
    scheduler.shutdown(wait=False)


def _check_port(host: str, port: int) -> None:
    """The workers share their port, so a second server would start silently beside the first."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise ConfigError(f"cannot listen on {host}:{port}: {error.strerror}; choose another with --port") from error
