"""Run the web application under a production WSGI server, with the clock's jobs in a process of their own.

This process only watches those two: it starts again whichever dies, and neither outlives it. The web server does the
same for its workers.
"""

import ctypes
import errno
import gc
import logging
import multiprocessing
import os
import resource
import signal
import socket
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from multiprocessing.connection import wait
from multiprocessing.context import SpawnProcess
from multiprocessing.reduction import DupFd
from pathlib import Path
from typing import Any

from granian import Granian
from granian.constants import Interfaces
from granian.log import LogLevels

from followup import logs
from followup.config import ConfigError, Settings
from followup.records import open_store, watch
from followup.records.lock import PATIENCE_SECONDS, held
from followup.records.opening import check_usable
from followup.settings_file import HANDED_OVER, load

log = logging.getLogger(__name__)
THREADS_PER_WORKER = 4
THREADS_OF_REGION = 8
"""In a worker that several clinics share: one has three at most (`doors.AT_ONCE`), so two that stand still leave two."""
MANY_FILES = 65_536
FIRST_PAUSE_SECONDS, LONGEST_PAUSE_SECONDS = 0.5, 4.0  # with a start of some 3 s, pages are there within ten
STEADY_SECONDS = 60  # whoever lived that long is started again at once
STOP_SECONDS = 15
REGISTER = "FOLLOWUP_REGISTER"
"""How the serving process of several clinics says to its children where their register is."""
PR_SET_PDEATHSIG = 1  # Linux: prctl(2)


def serve(settings: Settings) -> None:
    """Serve until stopped.

    Raises `ConfigError` when something else listens on the port, `StoreError` when another server uses the database or its
    keys cannot be read.
    """
    server = settings.server
    with held(server.database, "a server is running on it") as lock:
        check_usable(server.database)
        check_port(server.host, server.port)
        os.environ[HANDED_OVER] = settings.model_dump_json()
        _log(settings)
        _keep_running({"web server": run_web} | ({"clock": run_jobs} if server.jobs else {}), lock)


def serve_region(folder: Path, settings: Settings) -> None:
    """Serve every clinic of the folder until stopped; `settings` are those of the machine.

    Raises `ConfigError` where there is no such folder, or when something else listens on the port.
    """
    from followup.region.porter import Porter
    from followup.region.register import Register

    server = settings.server
    if not folder.is_dir():
        raise ConfigError(f"there is no folder of clinics at {folder}")
    check_port(server.host, server.port)
    os.environ[HANDED_OVER] = settings.model_dump_json()
    _log(settings)
    allow_many_files()
    with tempfile.TemporaryDirectory(prefix="followup-") as made:
        path = Path(made) / "clinics.json"
        os.environ[REGISTER] = str(path)
        ending = threading.Event()
        porter = Porter(folder.resolve(), Register(path))
        looking = threading.Thread(target=_look_again_and_again, args=(porter.look, ending), daemon=True)
        looking.start()
        try:
            _keep_running({"web server": run_web} | ({"clock": run_clocks} if server.jobs else {}), None)
        finally:
            ending.set()
            looking.join(STOP_SECONDS)
            porter.close(STOP_SECONDS)


def allow_many_files() -> None:
    """For this process and its children, as far as the system lets it: each thread has each database open that it worked on,
    so a hundred clinics need more than the usual 1,024.
    """
    allowed, most = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = MANY_FILES if most == resource.RLIM_INFINITY else min(MANY_FILES, most)
    if wanted > allowed != resource.RLIM_INFINITY:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, most))


def _look_again_and_again(look: Callable[[float], None], ending: threading.Event) -> None:
    """Each second, whatever one look meets."""
    while True:
        try:
            look(time.monotonic())
        except Exception as error:
            log.error("the clinics could not be looked at: %s", watch.words_of(error))
        if ending.wait(1):
            return


class _Child:
    """A process that is started again when it dies, after a pause that grows while it keeps dying."""

    def __init__(self, name: str, target: Callable[[int | None], None], lock: int | None) -> None:
        self.name, self._target, self._lock = name, target, lock
        self.process: SpawnProcess | None = None
        self.start_at = self._started = 0.0
        self._pause = FIRST_PAUSE_SECONDS

    def start(self) -> None:
        # Spawned, not forked: the web server forks its workers in turn, and threads do not survive that.
        self.process = multiprocessing.get_context("spawn").Process(
            target=_run, args=(self._target, None if self._lock is None else _Shared(self._lock)), name=self.name
        )
        self._started = time.monotonic()
        self.process.start()

    def ended(self) -> None:
        assert self.process is not None
        self.process.join()
        now = time.monotonic()
        if now - self._started >= STEADY_SECONDS:
            self._pause = FIRST_PAUSE_SECONDS
        log.error("the %s ended (%s); starting it again in %.1f s", self.name, self.process.exitcode, self._pause)
        self.process, self.start_at = None, now + self._pause
        self._pause = min(LONGEST_PAUSE_SECONDS, self._pause * 2)


class _Shared:
    """Gives a child the lock's own descriptor, so that the database counts as in use until the last of us is gone."""

    def __init__(self, descriptor: int) -> None:
        self._descriptor = descriptor

    def __reduce__(self) -> tuple[Any, ...]:
        return _taken_over, (DupFd(self._descriptor),)


def _taken_over(given: Any) -> int:
    return int(given.detach())


class _Stop(BaseException):
    """Somebody asked this process to end."""


def _keep_running(targets: Mapping[str, Callable[[int | None], None]], lock: int | None) -> None:
    def stop(*_: object) -> None:
        raise _Stop

    children = [_Child(name, target, lock) for name, target in targets.items()]
    for name in (signal.SIGTERM, signal.SIGINT):
        signal.signal(name, stop)
    try:
        while True:
            now = time.monotonic()
            for child in children:
                if child.process is None and child.start_at <= now:
                    child.start()
            running = {child.process.sentinel: child for child in children if child.process is not None}
            pauses = [child.start_at - now for child in children if child.process is None]
            for sentinel in wait(list(running), max(0.0, min(pauses)) if pauses else None):
                running[sentinel].ended()  # type: ignore[index]
    except _Stop:
        pass
    finally:
        for name in (signal.SIGTERM, signal.SIGINT):
            signal.signal(name, signal.SIG_IGN)
        _end([child.process for child in children if child.process is not None])


def _end(processes: list[SpawnProcess]) -> None:
    for process in processes:
        process.terminate()
    for process in processes:
        process.join(STOP_SECONDS)
        if process.is_alive():
            process.kill()
            process.join()


def _run(target: Callable[[int | None], None], lock: int | None) -> None:
    end_with_parent()
    _log(load())
    target(lock)


def _log(settings: Settings) -> None:
    """In the demo's terminal, requests would push away how to sign in."""
    logs.to_stderr(warnings_only=settings.server.demo)


def run_web(lock: int | None) -> None:
    """The web server and its workers, which inherit the lock."""
    server = load().server
    Granian(
        "followup.serving:worker",
        factory=True,
        interface=Interfaces.WSGI,
        address=server.host,
        port=server.port,
        workers=server.workers,
        blocking_threads=THREADS_OF_REGION if REGISTER in os.environ else THREADS_PER_WORKER,
        websockets=False,
        respawn_failed_workers=True,
        workers_kill_timeout=STOP_SECONDS // 3,
        log_level=LogLevels.warning if server.demo else LogLevels.info,
    ).serve()


def worker() -> Any:
    """The application in one of the web server's workers: of one clinic, or of all that the register names."""
    end_with_parent()
    _log(load())
    if register := os.environ.get(REGISTER):
        app = _doors(Path(register))
    else:
        from followup.web import create_app  # needed in these processes only

        app = create_app()
    gc.freeze()  # what stays for good is not looked through again while pages are made
    return app


def _doors(register: Path) -> Any:
    from werkzeug.middleware.proxy_fix import ProxyFix

    from followup.region.doors import Doors
    from followup.region.register import Register

    doors, trusted = Doors(Register(register)), load().server.proxies
    looking = threading.Thread(target=_look_again_and_again, args=(lambda _: doors.sweep(), threading.Event()), daemon=True)
    looking.start()
    return ProxyFix(doors, x_for=trusted, x_proto=trusted)  # which clinic is asked for is said by the host alone


def run_clocks(lock: int | None) -> None:
    """Run the jobs of every clinic of the register until told to end."""
    from followup.region.clocks import Clocks
    from followup.region.register import Register

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the serving process says when
    stop = threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: stop.set())
    clocks = Clocks(Register(Path(os.environ[REGISTER])), lambda: datetime.now(UTC))
    while not stop.wait(1):
        clocks.look()
    os._exit(0)  # without waiting for what hangs


def run_jobs(lock: int | None) -> None:
    """Run the clock's jobs until told to end."""
    from followup import jobs  # needed in this process only

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the serving process says when
    settings, stop = load(), threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: stop.set())
    running = jobs.Running(open_store(settings.server.database), settings, lambda: datetime.now(UTC))
    while not stop.wait(1) and running.keep_time():
        pass
    os._exit(0 if stop.is_set() else 1)  # without waiting for what hangs


def end_with_parent() -> None:
    """End this process as soon as the one that started it is gone, however that ended."""
    parent = multiprocessing.parent_process()
    if parent is None:
        return
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != parent.pid:
            os._exit(1)
    else:
        threading.Thread(target=lambda: (parent.join(), os._exit(1)), daemon=True).start()


def check_port(host: str, port: int) -> None:
    """Raises `ConfigError` where nothing can listen there: the workers share their port, so a second server would start
    silently beside the first."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    patient_until = time.monotonic() + PATIENCE_SECONDS  # workers of a server that was killed may be closing theirs
    while True:
        with socket.socket(family, socket.SOCK_STREAM) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, port))
                return
            except OSError as error:
                if error.errno != errno.EADDRINUSE or time.monotonic() > patient_until:
                    strange = isinstance(error, socket.gaierror) or error.errno == errno.EADDRNOTAVAIL
                    option = "--host" if strange else "--port"
                    said = f"cannot listen on {host}:{port}: {error.strerror}; choose another with {option}"
                    raise ConfigError(said) from error
        time.sleep(0.05)
