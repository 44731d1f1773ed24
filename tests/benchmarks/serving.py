"""Starts the benchmark server in a process of its own and stops it again."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

SERVER = Path(__file__).with_name("server.py")


@dataclass(frozen=True)
class Served:
    """Where it listens, its followers' tokens, and its process."""

    url: str
    tokens: tuple[str, ...]
    pid: int


@contextmanager
def serving(followers: int) -> Iterator[Served]:
    """A running server with a fresh store and so many followers; gone with the block."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, str(SERVER), folder, str(followers)]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            try:
                said = process.stdout.readline().split()
                if len(said) != 1 + followers:
                    raise SystemExit("the server did not start: its error stands above")
                yield Served(f"http://127.0.0.1:{said[0]}", tuple(said[1:]), process.pid)
            finally:
                process.terminate()
                process.wait(timeout=10)
