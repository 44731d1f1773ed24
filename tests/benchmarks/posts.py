"""`POST /messages` beside a bare insert on the same server: how much of its speed is left."""

from __future__ import annotations

import statistics
import sys
import time

import httpx
from figure import Figure, demo_lines
from serving import serving


def measure(quick: bool = False) -> list[Figure]:
    """Both doors in turn, a follower a message; medians, so that a hiccup of the machine does not decide."""
    texts = [line["text"] for line in demo_lines()]
    taken_ms: dict[str, list[float]] = {"/bare": [], "/messages": []}
    rounds = 60 if quick else 400
    with serving(rounds) as served, httpx.Client(base_url=served.url, timeout=30) as client:
        for number in range(rounds):
            body = {"text": texts[number % len(texts)], "follower": served.tokens[number]}
            for door, taken in taken_ms.items():
                started = time.perf_counter()
                response = client.post(door, json=body)
                taken.append((time.perf_counter() - started) * 1000)
                if response.status_code != 202:
                    raise SystemExit(f"POST {door} answered {response.status_code}: {response.text}")
    warm = {door: statistics.median(taken[10:]) for door, taken in taken_ms.items()}
    return [
        Figure("bare insert, median", warm["/bare"], "ms"),
        Figure("POST /messages, median", warm["/messages"], "ms"),
        Figure(
            "speed of POST /messages beside the bare insert", warm["/bare"] / warm["/messages"], "x", 0.6, most=False
        ),
    ]


if __name__ == "__main__":
    print(*measure("--quick" in sys.argv), sep="\n")
