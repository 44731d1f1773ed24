"""The installed rulebook read once a process: a book never changes, and reading it takes longer than most tests."""

from functools import cache, wraps

from assistant import rulebook

_load = rulebook.load
_installed = cache(lambda: _load())


@wraps(_load)
def load_once(root=None):
    return _load(root) if root else _installed()


rulebook.load = load_once
