"""From the start of `assistant serve` to its first answer, and how much memory it holds after the demo messages."""

from __future__ import annotations

import os
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import httpx
from figure import Figure, demo_lines
from serving import serving

from assistant.inbox import Inbox
from assistant.rulebook import load
from assistant.store import Store

_GIVE_UP_S = 60


def measure(quick: bool = False) -> list[Figure]:
    """A follower's first message is drafted within the time; memory is what the process keeps resident."""
    texts = [line["text"] for line in demo_lines()]
    taken_s = [first_answer_s(texts[0]) for _ in range(1 if quick else 3)]
    with serving(len(texts)) as served, httpx.Client(base_url=served.url, timeout=30) as client:
        for text, token in zip(texts, served.tokens, strict=True):
            client.post("/messages", json={"text": text, "follower": token}).raise_for_status()
        held_mb = resident_mb(served.pid)
    found = [Figure("start to first answer, median", statistics.median(taken_s), "s", 2)]
    if held_mb:
        found.append(Figure("memory after the demo messages", held_mb, "MB", 180))
    return found


def first_answer_s(text: str) -> float:
    """Seconds from the command to the answer of its first message, on a store that a coach has set up before."""
    with tempfile.TemporaryDirectory() as folder:
        url, port = f"sqlite:///{folder}/assistant.db", free_port()
        store = Store(url)
        store.upgrade()
        inbox = Inbox(store, load)
        inbox.add_coach("bench", "Bench", "a long enough password")
        token = inbox.add_follower("bench", "Follower")["token"]
        store.close()
        settings = {"ASSISTANT_STORE_URL": url, "ASSISTANT_PORT": str(port)}
        started = time.perf_counter()
        with subprocess.Popen([sys.executable, "-m", "assistant", "serve"], env=os.environ | settings) as process:
            try:
                post_when_open(f"http://127.0.0.1:{port}/messages", {"text": text, "follower": token}, process)
                return time.perf_counter() - started
            finally:
                process.terminate()
                process.wait(timeout=10)


def post_when_open(url: str, body: dict[str, str], process: subprocess.Popen) -> None:
    """The first answer of a server that is just starting."""
    give_up = time.perf_counter() + _GIVE_UP_S
    with httpx.Client(timeout=30) as client:
        while time.perf_counter() < give_up and process.poll() is None:
            try:
                client.post(url, json=body).raise_for_status()
                return
            except httpx.ConnectError:
                time.sleep(0.01)
    raise SystemExit("the server did not start: its error stands above")


def free_port() -> int:
    """A port that nobody listens on now."""
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return door.getsockname()[1]


def resident_mb(pid: int) -> float:
    """Resident memory of a process in MB (10^6 bytes); 0 where the system has no /proc to ask."""
    status = Path(f"/proc/{pid}/status")
    if not status.exists():
        return 0.0
    row = next(line for line in status.read_text().splitlines() if line.startswith("VmRSS:"))
    return int(row.split()[1]) * 1024 / 1e6


if __name__ == "__main__":
    print(*measure("--quick" in sys.argv), sep="\n")
