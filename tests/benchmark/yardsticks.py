"""What the program is compared with, on the same machine in the same minutes: as little as a page, a commit or a start can be.

Each web yardstick is served as the program is: `python -m tests.benchmark.yardsticks twenty_rows DATABASE PORT`.
"""

import os
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path
from typing import Any

from flask import Flask, g
from granian import Granian
from granian.constants import Interfaces

from followup.serving import THREADS_PER_WORKER, end_with_parent

WORKERS = 2
ROWS = """
<!doctype html><title>Rows</title><table>
{% for row in rows %}<tr><td>{{ row[0] }}<td>{{ row[1] }}<td>{{ row[2] }}<td>{{ row[3] }}</tr>{% endfor %}
</table>
"""


def fill(path: Path, rows: int) -> None:
    """A table of so many rows with an index."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE line (id INTEGER PRIMARY KEY, name TEXT, due TEXT, words TEXT)")
        days = ((n, f"name {n}", f"{n * 7919 % rows:09}", "some words about it") for n in range(rows))
        connection.executemany("INSERT INTO line VALUES (?, ?, ?, ?)", days)
        connection.execute("CREATE INDEX line_by_day ON line (due)")
        connection.commit()


def twenty_rows() -> Flask:
    """A page of twenty rows, found by an index and rendered by Jinja."""
    end_with_parent()
    app, path = Flask(__name__), os.environ["YARDSTICK"]
    template = app.jinja_env.from_string(ROWS)

    @app.get("/")
    def page() -> str:
        if "connection" not in g:
            g.connection = sqlite3.connect(path)
        rows = g.connection.execute("SELECT name, due, words, id FROM line WHERE due >= '000000010' ORDER BY due LIMIT 20")
        return template.render(rows=rows.fetchall())

    @app.teardown_appcontext
    def close(_: BaseException | None) -> None:
        if "connection" in g:
            g.connection.close()

    return app


def admin() -> Flask:
    """The clinic's tables in a general-purpose admin framework: pages of twenty rows, with their number and a filter."""
    from flask_admin import Admin  # only where the extra `benchmark` is installed
    from flask_admin.contrib.sqla import ModelView
    from flask_babel import Babel
    from sqlalchemy import create_engine
    from sqlalchemy.ext.automap import automap_base
    from sqlalchemy.orm import Session, scoped_session, sessionmaker

    end_with_parent()
    app = Flask(__name__)
    app.secret_key = "for this benchmark"
    Babel(app)
    engine = create_engine(f"sqlite:///{os.environ['YARDSTICK']}")
    base = automap_base()
    base.prepare(autoload_with=engine)
    session: Any = scoped_session(sessionmaker(engine, class_=Session))
    shown = Admin(app)
    for table in ("patients", "visits", "callbacks", "events"):
        shown.add_view(ModelView(base.classes[table], session, name=table, endpoint=table))
    app.teardown_appcontext(lambda _: session.remove())
    return app


def commits_a_second(path: Path, seconds: float) -> float:
    """Plain `sqlite3`, a commit for each row, as durable as ours: write-ahead log, waiting for the disk each time."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("CREATE TABLE kept (id INTEGER PRIMARY KEY, at TEXT, body TEXT)")
        done, began = 0, time.perf_counter()
        while (passed := time.perf_counter() - began) < seconds or not done:
            connection.execute(
                "INSERT INTO kept (at, body) VALUES (?, ?)", ("2027-03-05T10:00:00.000000Z", '{"pain": 1}' * 10)
            )
            done += 1
    return done / passed


def serve(app: str, database: str, port: int) -> None:
    os.environ["YARDSTICK"] = database
    Granian(
        f"tests.benchmark.yardsticks:{app}",
        factory=True,
        interface=Interfaces.WSGI,
        address="127.0.0.1",
        port=port,
        workers=WORKERS,
        blocking_threads=THREADS_PER_WORKER,
        websockets=False,
    ).serve()


if __name__ == "__main__":
    serve(sys.argv[1], sys.argv[2], int(sys.argv[3]))
