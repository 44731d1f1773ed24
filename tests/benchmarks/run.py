"""All benchmarks, one line a figure: `python tests/benchmarks/run.py [--quick] [--strict]`."""

from __future__ import annotations

import sys

import demands
import posts
import searching
import starts
import tries


def main(arguments: list[str]) -> int:
    """Prints every figure; with --strict exit status 1 when a target is missed."""
    figures = [
        figure for part in (demands, tries, searching, starts, posts) for figure in part.measure("--quick" in arguments)
    ]
    print(*figures, sep="\n")
    missed = sum(not figure.met for figure in figures)
    print(f"{len(figures) - missed} of {len(figures)} within their targets")
    return 1 if missed and "--strict" in arguments else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
