"""One YAML file of cards → plain mappings in which every scalar is text and every key knows its line.

Plain YAML turns `no` into False and `4:30` into 270 and drops duplicate keys; so nodes are composed, never
constructed: scalars stay text, duplicate keys, anchors and tags are mistakes with file and line.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from assistant.values import Mistake


class _Loader(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):
    """Composes without asking what a scalar might be: here all of them are text."""

    def resolve(self, kind: type, value: Any, implicit: Any) -> str:
        return "tag:yaml.org,2002:str"

    def descend_resolver(self, current_node: Any, current_index: Any) -> None:
        pass

    def ascend_resolver(self) -> None:
        pass


Path_ = tuple[str | int, ...]


@dataclass
class RawCard:
    """A card before it is typed: its kind, its fields, and the line of every field."""

    kind: str
    fields: dict[str, Any]
    file: str
    lines: dict[Path_, int] = field(default_factory=dict)

    def line(self, path: Path_ = ()) -> int:
        """The line of the field at `path`, or of its nearest parent."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


def read_cards(path: Path, root: Path) -> tuple[list[RawCard], list[Mistake]]:
    """All cards of one file and the mistakes in its form; never raises on what a coach may write."""
    name = path.relative_to(root).as_posix()
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        return [], [Mistake(name, 1, "this file is not text", f"byte {error.start}", "save it as UTF-8 text")]
    if not text.strip():
        return [], [Mistake(name, 1, "this file is empty", "", "write a card or delete the file")]
    try:
        node = yaml.compose(text, Loader=_Loader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 1 if mark else 1
        problem = getattr(error, "problem", None) or getattr(error, "reason", "") or str(error).splitlines()[0]
        return [], [Mistake(name, line, "this is not YAML", str(problem), "check indentation, quotes and colons")]
    if not isinstance(node, yaml.SequenceNode):
        return [], [Mistake(name, 1, "a file is a list of cards", "no list", "start every card with '- '")]
    cards, mistakes = [], []
    for item in node.value:
        line = item.start_mark.line + 1
        if not isinstance(item, yaml.MappingNode) or not item.value:
            mistakes.append(Mistake(name, line, "a card is a list of 'field: value' lines", "", "see rules/README.md"))
            continue
        lines: dict[Path_, int] = {(): line}
        fields = _plain(item, (), lines, name, mistakes)
        cards.append(RawCard(next(iter(fields), ""), fields, name, lines))
    return cards, mistakes


def _plain(node: yaml.Node, path: Path_, lines: dict[Path_, int], name: str, mistakes: list[Mistake]) -> Any:
    """`node` as mappings, lists and text; line numbers go into `lines`, mistakes into `mistakes`."""
    line = node.start_mark.line + 1
    lines.setdefault(path, line)
    if isinstance(node, yaml.ScalarNode):
        return node.value
    if isinstance(node, yaml.SequenceNode):
        return [_plain(child, (*path, n), lines, name, mistakes) for n, child in enumerate(node.value)]
    result: dict[str, Any] = {}
    for key_node, child in node.value:
        key, key_line = str(key_node.value), key_node.start_mark.line + 1
        if key in result:
            mistakes.append(Mistake(name, key_line, f"'{key}' stands twice in one card", "", "keep one of them"))
            continue
        lines[(*path, key)] = key_line
        result[key] = _plain(child, (*path, key), lines, name, mistakes)
    return result
