"""The clinic's web server for one test: the real one, in processes forked from one that has imported everything already.

What `followup serve` adds (options, the watcher, the clock) is tested in `tests/test_serving.py`.
"""

import ctypes
import multiprocessing
import os
import signal
import sys
from pathlib import Path

from argon2 import PasswordHasher

from followup import serving
from followup.care import accounts
from followup.care.home import sealing
from followup.settings_file import HANDED_OVER, load, with_server
from followup.web import create_app
from tests.made_once import compile_templates_once

__all__ = ["create_app", "processes", "run"]  # the application is imported here for the processes to come
compile_templates_once()
SEALING_KEY = sealing.new_key()
sealing._read(SEALING_KEY)  # testing its numbers takes as long as all the rest of a start
PR_SET_PDEATHSIG = 1  # Linux: prctl(2)


def processes() -> multiprocessing.context.ForkServerContext:
    """Makes processes that begin with this module imported."""
    made = multiprocessing.get_context("forkserver")
    made.set_forkserver_preload([__name__])
    return made


def run(config: Path, database: Path, port: int) -> None:
    """Serve as `followup serve` does, with cheap passwords and a sealing key that is there already; ends with whoever forked it."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    os.setpgid(0, 0)
    quiet = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(quiet, stream)
    sealing.new_key = lambda: SEALING_KEY
    accounts._hasher = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    multiprocessing.set_start_method("fork", force=True)  # for the worker, as in the processes of `followup serve`
    os.environ.pop(HANDED_OVER, None)
    given = {"database": database, "port": port, "workers": 1, "jobs": False, "secure_cookies": False}
    os.environ[HANDED_OVER] = with_server(load(config), given).model_dump_json()
    serving.run_web(0)
