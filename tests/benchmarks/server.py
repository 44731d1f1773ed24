"""The real application on a free port with a bare insert beside it, for the other benchmarks: prints port and tokens.

The bare insert is the least a server of this stack can do with a message: check its fields, write one row into SQLite
in one transaction, answer 202. Same process, same middleware, same settings of the database.
"""

from __future__ import annotations

import socket
import sys
from pathlib import Path

import uvicorn
from fastapi import Request
from fastapi.responses import JSONResponse
from pydantic import BaseModel, Field
from sqlalchemy import Column, Engine, Integer, MetaData, Table, Text, create_engine, event, insert

from assistant.web import create_app
from assistant.web.settings import Settings

ROWS = Table("bare", MetaData(), Column("id", Integer, primary_key=True), Column("text", Text), Column("who", Text))


class Bare(BaseModel):
    """The fields of a message, no more."""

    text: str = Field(min_length=1)
    follower: str = Field(min_length=1)


def bare_engine(folder: Path) -> Engine:
    engine = create_engine(f"sqlite:///{folder / 'bare.db'}")

    @event.listens_for(engine, "connect")
    def _like_the_store(connection, _record):
        for pragma in ("journal_mode=WAL", "synchronous=NORMAL", "foreign_keys=ON"):
            connection.execute(f"PRAGMA {pragma}").close()

    ROWS.metadata.create_all(engine)
    return engine


def main(folder: Path, followers: int) -> None:
    """Serve until stopped; each of so many followers has a token."""
    app = create_app(Settings(messages_per_follower="1000000/second"), store_url=f"sqlite:///{folder / 'real.db'}")
    engine = bare_engine(folder)

    def take(request: Request, body: Bare) -> JSONResponse:
        with engine.begin() as connection:
            row = connection.execute(insert(ROWS).values(text=body.text, who=body.follower)).inserted_primary_key
        return JSONResponse({"id": row[0]}, 202)

    app.add_api_route("/bare", take, methods=["POST"])
    inbox = app.state.inbox
    inbox.add_coach("bench", "Bench", "a long enough password")
    tokens = [inbox.add_follower("bench", f"Follower {number}")["token"] for number in range(followers)]
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        print(door.getsockname()[1], *tokens, flush=True)
        config = uvicorn.Config(app, log_level="warning", access_log=False)
        uvicorn.Server(config).run(sockets=[door])


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
