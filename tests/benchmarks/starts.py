"""From the start of a server to its first answer, and how much memory it holds after a round of demo messages."""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

import httpx
from figure import Figure, demo_lines
from serving import serving


def measure(quick: bool = False) -> list[Figure]:
    """The store is made and a first message drafted within the time; memory is what the process keeps resident."""
    texts = [line["text"] for line in demo_lines()]
    taken_s = []
    for _ in range(1 if quick else 3):
        started = time.perf_counter()
        with serving(1) as served, httpx.Client(base_url=served.url, timeout=30) as client:
            client.post("/messages", json={"text": texts[0], "follower": served.tokens[0]}).raise_for_status()
            taken_s.append(time.perf_counter() - started)
    with serving(len(texts)) as served, httpx.Client(base_url=served.url, timeout=30) as client:
        for text, token in zip(texts, served.tokens, strict=True):
            client.post("/messages", json={"text": text, "follower": token}).raise_for_status()
        held_mb = resident_mb(served.pid)
    found = [Figure("start to first answer, median", statistics.median(taken_s), "s", 2)]
    if held_mb:
        found.append(Figure("memory after the demo messages", held_mb, "MB", 180))
    return found


def resident_mb(pid: int) -> float:
    """Resident memory of a process in MB (10^6 bytes); 0 where the system has no /proc to ask."""
    status = Path(f"/proc/{pid}/status")
    if not status.exists():
        return 0.0
    row = next(line for line in status.read_text().splitlines() if line.startswith("VmRSS:"))
    return int(row.split()[1]) * 1024 / 1e6


if __name__ == "__main__":
    print(*measure("--quick" in sys.argv), sep="\n")
