"""What the code promises and no single test would notice: purity, size, no phrases in Python, frozen values."""

import ast
import dataclasses
import re
import typing
from pathlib import Path

import pytest

import assistant.values

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "assistant"
PURE = ("read", "screen", "search", "dose", "write", "answer")
WORDLESS = ("read", "screen", "search", "dose", "write", "words")  # what is said stands on cards
WORLD = {
    "asyncio", "datetime", "fastapi", "http", "httpx", "io", "multiprocessing", "os", "pathlib", "random", "requests",
    "secrets", "shutil", "socket", "sqlalchemy", "sqlite3", "subprocess", "tempfile", "threading", "time", "urllib",
    "uuid",
}  # fmt: skip
CALLS = {"open", "eval", "exec", "compile", "input", "print", "__import__"}
MOST_LINES = 300
MOST_WORDS = 5
NAMELESS = {"utils", "util", "helpers", "helper", "manager", "service", "common", "base", "core", "misc"}


def files_of(module: str) -> list[Path]:
    """A module is a file, or a folder of the same name."""
    found = [*PACKAGE.glob(f"{module}.py"), *(PACKAGE / module).rglob("*.py")]
    assert found, f"there is no module assistant.{module}"
    return sorted(found)


def ours() -> list[Path]:
    return sorted(p for folder in ("assistant", "tests") for p in (ROOT / folder).rglob("*.py"))


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def imported(tree: ast.AST) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module.partition(".")[0])
    return names


def called(tree: ast.AST) -> set[str]:
    return {n.func.id for n in ast.walk(tree) if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)}


def worldly(source: str) -> set[str]:
    tree = ast.parse(source)
    return (imported(tree) & WORLD) | (called(tree) & CALLS)


@pytest.mark.parametrize("module", PURE)
def test_a_verb_knows_no_clock_no_chance_no_network_no_file_and_no_database(module):
    assert {name_of(path): worldly(path.read_text(encoding="utf-8")) for path in files_of(module)} == {
        name_of(path): set() for path in files_of(module)
    }


def test_the_search_for_the_outside_world_finds_it():
    assert worldly("import time") == {"time"}
    assert worldly("from os.path import join\nopen('x')") == {"os", "open"}


def test_every_file_is_under_300_lines():
    long = {
        name_of(path): n for path in ours() if (n := len(path.read_text(encoding="utf-8").splitlines())) >= MOST_LINES
    }
    assert long == {}


def test_no_module_is_named_after_nothing():
    assert [name_of(path) for path in ours() if path.stem in NAMELESS or path.parent.name in NAMELESS] == []


def phrases(source: str) -> list[str]:
    """Texts of more than five words that are neither a docstring nor part of an error."""
    tree = ast.parse(source)
    spared: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            spared.add(id(node.value))
        if isinstance(node, (ast.Raise, ast.Assert)) or (isinstance(node, ast.Call) and name_called(node) == "compile"):
            spared |= {id(inner) for inner in ast.walk(node)}
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr) and id(node) not in spared:
            text = " ".join(part.value for part in node.values if isinstance(part, ast.Constant))
            spared |= {id(part) for part in node.values}
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in spared:
            text = node.value
        else:
            continue
        if sum(word[:1].isalpha() for word in text.split()) > MOST_WORDS:
            found.append(text)
    return found


def name_called(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


@pytest.mark.parametrize("module", WORDLESS)
def test_what_is_said_to_people_stands_on_cards_and_not_in_python(module):
    found = {name_of(path): phrases(path.read_text(encoding="utf-8")) for path in files_of(module)}
    assert {path: texts for path, texts in found.items() if texts} == {}


def test_the_search_for_phrases_finds_one_and_spares_docstrings_and_errors():
    assert phrases('x = "please rest your sore wrist for now"') == ["please rest your sore wrist for now"]
    assert len(phrases('x = f"please rest your {part} for now and then"')) == 1
    assert (
        phrases(
            'def f():\n    """One sentence that says what this does."""\n    raise E("no such thing in here at all")'
        )
        == []
    )


def value_classes() -> list[type]:
    found = vars(assistant.values).values()
    return [thing for thing in found if isinstance(thing, type) and dataclasses.is_dataclass(thing)]


def test_every_value_is_frozen():
    assert len(value_classes()) > 15
    assert [cls.__name__ for cls in value_classes() if not cls.__dataclass_params__.frozen] == []


def test_no_value_holds_anything_that_can_change():
    loose = []
    for cls in value_classes():
        for name, kind in typing.get_type_hints(cls).items():
            if re.search(r"\b(list|dict|set|bytearray|Any)\b", str(kind)):
                loose.append(f"{cls.__name__}.{name}: {kind}")
    assert loose == []
