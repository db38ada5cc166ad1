"""Run the web application under a production WSGI server, with the clock's jobs in the parent process."""

import os
from datetime import UTC, datetime

from granian import Granian
from granian.constants import Interfaces

from followup import jobs
from followup.config import ENVIRONMENT, Settings
from followup.records import open_store


def serve(settings: Settings) -> None:
    """Serve until stopped. Worker processes read the same settings from the environment."""
    os.environ |= _environment(settings)
    scheduler = None
    if settings.server.jobs:
        store = open_store(settings.server.database, create=settings.server.demo)
        scheduler = jobs.start(store, settings, lambda: datetime.now(UTC))
    try:
        Granian(
            "followup.web:create_app",
            factory=True,
            interface=Interfaces.WSGI,
            address=settings.server.host,
            port=settings.server.port,
            workers=settings.server.workers,
            blocking_threads=8,
            websockets=False,
        ).serve()
    finally:
        if scheduler is not None:
            scheduler.shutdown(wait=False)


def _environment(settings: Settings) -> dict[str, str]:
    values = {}
    for name, (section, key) in ENVIRONMENT.items():
        values[name] = str(getattr(getattr(settings, section), key))
    return values
