"""The output shown in README.md: `python tests/readme_output.py` runs the commands again and writes what they print.

A block is marked by `<!-- real-output: COMMAND -->` before it and `<!-- end -->` after it.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"
BLOCK = re.compile(r"(<!-- real-output: (assistant .+?) -->\n```\n)(.*?)(\n```\n<!-- end -->)", re.S)
COLUMNS = "100"


def shown(text: str) -> list[tuple[str, str]]:
    """Every marked command of `text` with the output shown for it."""
    return [(command, output) for _, command, output, _ in BLOCK.findall(text)]


def printed(command: str) -> str:
    """What `command` prints now, 100 columns wide, without spaces at the ends of lines."""
    arguments = [sys.executable, "-m", "assistant", *shlex.split(command)[1:]]
    environment = os.environ | {"COLUMNS": COLUMNS, "NO_COLOR": "1", "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run(
        arguments, capture_output=True, text=True, encoding="utf-8", env=environment, cwd=README.parent
    )
    if done.returncode:
        raise SystemExit(f"'{command}' failed: {done.stderr.strip()}")
    return "\n".join(line.rstrip() for line in done.stdout.strip().splitlines())


def without_line_numbers(output: str) -> str:
    """`output` without the line numbers of cards, which move with every card that is added.

    >>> without_line_numbers("because a (limits/joints.yaml:12): b")
    'because a (limits/joints.yaml): b'
    """
    return re.sub(r"(\.yaml):\d+", r"\1", re.sub(r"\s+", " ", output))


def main() -> None:
    """Write what the commands print now into the README."""
    text = README.read_text(encoding="utf-8")
    README.write_text(BLOCK.sub(lambda m: m[1] + printed(m[2]) + m[4], text), encoding="utf-8")


if __name__ == "__main__":
    main()
