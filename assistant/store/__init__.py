"""The archive: everything that happened, and all SQL of the project. Gives and takes plain values.

    store = Store("sqlite:///assistant.db")
    store.upgrade()
    with store.writing() as archive:      # one transaction; kept when the block ends, undone when it raises
        archive.people.add_coach(...)
    with store.reading() as archive:      # one consistent look
        archive.messages.one("ferry-lane", message)

SQLite is the embedded default: write-ahead log, one writer at a time. The same code runs on PostgreSQL.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, SQLAlchemyError
from sqlalchemy.orm import Session

from assistant.store.holds import Holds
from assistant.store.messages import Messages
from assistant.store.people import People
from assistant.store.plans import Plans
from assistant.values import BadInput

__all__ = ["Archive", "Store"]
BUSY_MS = 5000  # how long another process may hold the file before a write gives up
_one_writer = threading.Lock()  # writers of this process queue here: the file's own back-off makes long tails


@dataclass(frozen=True)
class Archive:
    """The shelves, open within one transaction."""

    people: People
    plans: Plans
    messages: Messages
    holds: Holds


class Store:
    """The archive at `url` (an SQLAlchemy address). Nothing is touched before `upgrade` or the first use."""

    def __init__(self, url: str):
        self._engine = _engine(url)
        self._sqlite = self._engine.dialect.name == "sqlite"
        # SQLite reads one moment by itself; PostgreSQL has to be told
        level = {} if self._sqlite else {"isolation_level": "REPEATABLE READ"}
        self._reader = self._engine.execution_options(**level)

    @contextmanager
    def reading(self) -> Iterator[Archive]:
        """One consistent look; nothing done in it is kept."""
        with Session(self._reader) as session:
            yield _archive(session)

    @contextmanager
    def writing(self) -> Iterator[Archive]:
        """One transaction: kept as a whole when the block ends, undone as a whole when it raises."""
        engine = self._engine.execution_options(writes=True)
        with _one_writer if self._sqlite else nullcontext(), Session(engine) as session, session.begin():
            yield _archive(session)

    def upgrade(self) -> None:
        """Bring the tables to the form this version needs; safe to call at every start."""
        with self._migrating() as config:
            command.upgrade(config, "head")

    def check(self) -> None:
        """Raises if the tables differ from what the code expects."""
        with self._migrating() as config:
            command.check(config)

    def alive(self) -> bool:
        """Whether the archive answers and has its tables."""
        try:
            with self._engine.connect() as connection:
                connection.execute(text("SELECT 1 FROM message WHERE coach = ''"))
        except SQLAlchemyError:
            return False
        return True

    def close(self) -> None:
        """Let go of all connections."""
        self._engine.dispose()

    @contextmanager
    def _migrating(self) -> Iterator[Config]:
        config = Config()
        config.set_main_option("script_location", "assistant.store:migrations")
        engine = self._engine.execution_options(writes=True)
        with _one_writer if self._sqlite else nullcontext(), engine.begin() as connection:
            config.attributes["connection"] = connection
            yield config


def _archive(session: Session) -> Archive:
    return Archive(People(session), Plans(session), Messages(session), Holds(session))


def _engine(url: str) -> Engine:
    try:
        parsed = make_url(url)
    except ArgumentError:
        # the address itself is not repeated: it may hold a password
        raise BadInput("the store's address cannot be read; write sqlite:///FILE or postgresql+psycopg://...") from None
    if parsed.get_backend_name() != "sqlite":
        return create_engine(parsed, hide_parameters=True, pool_pre_ping=True)
    if parsed.database in (None, "", ":memory:"):
        raise BadInput("the store needs a file, found an address without one; write sqlite:///FILE")
    _private_file(Path(parsed.database))
    # parameters hold what followers wrote: they must not stand in any error
    engine = create_engine(parsed, hide_parameters=True, connect_args={"timeout": BUSY_MS / 1000})
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _private_file(path: Path) -> None:
    """An empty file that only its owner may read: what followers write is health data."""
    if not path.parent.is_dir():
        raise BadInput(f"the store's folder {path.parent} is not there; make it or change the store's address")
    if not path.exists():
        os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))


def _set_up(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # transactions are opened by `_begin`, not guessed by the driver
    for pragma in ("journal_mode=WAL", "synchronous=NORMAL", "foreign_keys=ON", f"busy_timeout={BUSY_MS}"):
        connection.execute(f"PRAGMA {pragma}").close()


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
