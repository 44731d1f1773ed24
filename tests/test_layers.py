"""A module imports only from lower rows: the contracts in pyproject.toml, run as tests."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
if not os.environ.get("CI"):  # in continuous integration a test that cannot run is a failure
    pytest.importorskip("importlinter", reason="install the test extra to check the layers")


def lint(package_parent: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]
    command += [str(ROOT / "pyproject.toml"), "--no-cache"]
    place = {**os.environ, "PYTHONPATH": str(package_parent), "PYTHONUTF8": "1"}
    return subprocess.run(command, cwd=package_parent, env=place, capture_output=True, text=True, check=False)


@pytest.fixture
def copy(tmp_path):
    """The package alone, in a place of its own, so that a test may break it."""
    leave = shutil.ignore_patterns("__pycache__", "pages", "_data")
    shutil.copytree(ROOT / "assistant", tmp_path / "assistant", ignore=leave)
    return tmp_path


def broken_by(copy: Path, module: str, line: str) -> str:
    place = copy / "assistant" / module
    file = place.with_suffix(".py") if place.with_suffix(".py").exists() else place / "__init__.py"
    file.write_text(file.read_text(encoding="utf-8") + f"\n{line}\n", encoding="utf-8")
    found = lint(copy)
    assert found.returncode == 1, found.stdout
    return found.stdout


def test_every_import_goes_down():
    found = lint(ROOT)
    assert found.returncode == 0, found.stdout + found.stderr


def test_a_verb_that_calls_another_verb_is_found(copy):
    assert "assistant.read is not allowed to import assistant.screen" in broken_by(
        copy, "read", "import assistant.screen"
    )


def test_a_lower_row_that_reaches_up_is_found(copy):
    assert "assistant.words is not allowed to import assistant.store" in broken_by(
        copy, "words", "import assistant.store"
    )


def test_sql_outside_the_store_is_found(copy):
    assert "assistant.inbox is not allowed to import sqlalchemy" in broken_by(copy, "inbox", "import sqlalchemy")


def test_the_graph_library_outside_the_rulebook_and_the_search_is_found(copy):
    assert "assistant.dose is not allowed to import networkx" in broken_by(copy, "dose", "import networkx")
