"""What the tests of the inbox stand on: a fresh archive, invented verbs, a clock that is moved by hand."""

import shutil

import pytest

from tests.test_inbox.made_up import COACH, Clock, Verbs, fill, inbox_at, new_archive


@pytest.fixture(scope="session")
def empty(tmp_path_factory):
    """One empty archive, copied for every test: making the tables takes longer than most tests."""
    return new_archive(tmp_path_factory.mktemp("empty") / "archive.db")


@pytest.fixture
def verbs():
    return Verbs()


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def inbox(empty, tmp_path, verbs, clock):
    return inbox_at(shutil.copy(empty, tmp_path / "archive.db"), verbs, clock)


@pytest.fixture
def teuvo(inbox):
    return fill(inbox)


@pytest.fixture
def say(inbox, teuvo, verbs):
    """Teuvo writes; what the verbs should make of it is told first."""

    def say(text="no bar", plan=None, item=None, thread=None, key=None, **parts):
        if parts:
            verbs.tell(text, **parts)
        return inbox.receive(COACH, teuvo["token"], text, plan, item, thread, key)

    return say


@pytest.fixture
def store(inbox):
    """The archive below the inbox, to look at what was kept."""
    return inbox._desk.store
