"""What the processes log: one JSON object a line, with no names and nothing clinical.

Of an error only its kind and place are written: its text may hold what somebody typed.
"""

import logging
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, TextIO

import structlog

from followup.records import watch

_clinic: ContextVar[str] = ContextVar("clinic", default="")


@contextmanager
def about(clinic: str) -> Iterator[None]:
    """Where a server has several clinics: whatever is logged in here says which one it is about."""
    token = _clinic.set(clinic)
    try:
        yield
    finally:
        _clinic.reset(token)


def to_stderr(stream: TextIO | None = None, *, warnings_only: bool = False) -> logging.Handler:
    """Log so from now on; returns the handler."""
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(
        structlog.stdlib.ProcessorFormatter(
            foreign_pre_chain=[
                structlog.stdlib.add_log_level,
                structlog.processors.TimeStamper(fmt="iso", utc=True, key="at"),
                structlog.stdlib.ExtraAdder(),
                _kind_and_place,
                _about_whom,
            ],
            processors=[
                structlog.stdlib.ProcessorFormatter.remove_processors_meta,
                structlog.processors.JSONRenderer(ensure_ascii=False),
            ],
        )
    )
    root = logging.getLogger()
    root.addHandler(handler)
    root.setLevel(logging.WARNING if warnings_only else logging.INFO)
    return handler


def _about_whom(logger: Any, method: str, event: structlog.typing.EventDict) -> structlog.typing.EventDict:
    if clinic := _clinic.get():
        event["clinic"] = clinic
    return event


def _kind_and_place(logger: Any, method: str, event: structlog.typing.EventDict) -> structlog.typing.EventDict:
    """In the place of a traceback."""
    info = event.pop("exc_info", None)
    if isinstance(info, tuple) and info[1] is not None:
        event["error"] = watch.words_of(info[1])
    return event
