"""The same code on PostgreSQL, over a real connection to a server started for this file.

Binaries: the folder in PG_BIN, else `postgres` on the PATH, else the newest Debian one. Without them or without psycopg
the tests are skipped, and with REQUIRE_PG=1 they fail.
"""

import os
import shutil
import subprocess
import tempfile
import threading
from pathlib import Path

import pytest

from assistant.inbox import Inbox
from assistant.store import Store
from assistant.values import NotAllowed
from tests.test_inbox.made_up import COACH, PLAN, Clock, Verbs, as_json, book, fill


def binaries() -> Path | None:
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda folder: int(folder.parent.name))
    on_path = shutil.which("initdb")
    for folder in (os.environ.get("PG_BIN"), Path(on_path).parent if on_path else None, *reversed(debian)):
        if folder and (Path(folder) / "initdb").exists() and (Path(folder) / "pg_ctl").exists():
            return Path(folder)
    return None


def missing(what: str) -> None:
    if os.environ.get("REQUIRE_PG"):
        pytest.fail(what)
    pytest.skip(what)


@pytest.fixture(scope="module")
def address():
    """A server in a folder of its own, reached by a socket in it; it never runs as root."""
    try:
        import psycopg  # noqa: F401
    except ImportError:
        missing("pip install 'psycopg[binary]' to run the tests on PostgreSQL")
    programs = binaries()
    if programs is None:
        missing("install PostgreSQL or set PG_BIN to the folder of its programs")
    folder = Path(tempfile.mkdtemp(prefix="pg"))
    user = {"user": "nobody"} if os.geteuid() == 0 else {}
    if user:
        shutil.chown(folder, "nobody")

    def run(*command):
        subprocess.run(
            [str(programs / command[0]), *command[1:]], check=True, cwd=folder, stdout=subprocess.DEVNULL, **user
        )

    data = str(folder / "data")
    run("initdb", "-D", data, "-A", "trust", "-U", "postgres", "-E", "UTF8", "--no-sync")
    options = f"-F -k {folder} -c listen_addresses=''"
    run("pg_ctl", "-D", data, "-o", options, "-l", str(folder / "log"), "-w", "start")
    yield f"postgresql+psycopg://postgres@/postgres?host={folder}"
    run("pg_ctl", "-D", data, "-m", "immediate", "stop")
    shutil.rmtree(folder)


@pytest.fixture(scope="module")
def verbs():
    return Verbs()


@pytest.fixture(scope="module")
def inbox(address, verbs):
    store, rules = Store(address), book()
    store.upgrade()
    yield Inbox(store, lambda: rules, Clock(), verbs, as_json)
    store.close()


@pytest.fixture(scope="module")
def teuvo(inbox):
    return fill(inbox)


def at_once(many, do):
    """What `do(number)` gave or raised, done by that many at once."""
    found = []

    def one(number):
        try:
            found.append(do(number))
        except Exception as error:
            found.append(error)

    doers = [threading.Thread(target=one, args=(number,)) for number in range(many)]
    [doer.start() for doer in doers]
    [doer.join() for doer in doers]
    return found


def test_the_migrations_make_what_the_code_expects(inbox, address):
    store = Store(address)
    store.upgrade()
    store.check()
    assert store.alive()
    store.close()


def test_the_same_key_from_many_at_once_makes_one_message(inbox, teuvo):
    receipts = at_once(8, lambda _: inbox.receive(COACH, teuvo["id"], "no bar", key="tapped twice"))
    assert len({receipt.id for receipt in receipts}) == 1
    assert sorted(receipt.new for receipt in receipts) == [False] * 7 + [True]


def test_many_messages_of_one_thread_at_once_lose_neither_place_nor_memory(inbox, teuvo, verbs):
    thread = inbox.receive(COACH, teuvo["id"], "hello").thread
    texts = [verbs.tell(f"i can do {n}", can=[(f"exercise-{n}", n)]) for n in range(6)]
    receipts = at_once(6, lambda n: inbox.receive(COACH, teuvo["id"], texts[n], thread=thread))
    assert len({receipt.id for receipt in receipts}) == 6
    assert len(inbox.conversation(thread).turns) == 7
    can = dict(inbox.open(COACH, receipts[0].id).profile.can)
    assert {f"exercise-{n}": n for n in range(6)}.items() <= can.items()


def test_one_of_many_decisions_at_once_is_kept(inbox, teuvo):
    message = inbox.receive(COACH, teuvo["id"], "which one of you?").id
    found = at_once(6, lambda _: inbox.decide(COACH, message, "edited", "me"))
    assert found.count(None) == 1
    assert [type(one) for one in found if one is not None] == [NotAllowed] * 5


def test_a_hold_a_plan_and_a_session_are_the_same_as_on_the_other_database(inbox, teuvo, verbs):
    older = inbox.receive(COACH, teuvo["id"], "no bar", item="A1")
    serious = verbs.tell("my hand is numb", findings=[("numb-hand", "clinician", "wrist", {})])
    first = inbox.receive(COACH, teuvo["id"], serious)
    assert [row.id for row in inbox.session(COACH).stop_first] == [first.id]
    assert inbox.open(COACH, older.id).row.version == 2
    inbox.clear_hold(COACH, inbox.open(COACH, first.id).holds[0]["id"], "seen")
    assert inbox.open(COACH, older.id).row.version == 3
    assert inbox.plan(COACH, "thursday") == PLAN
    assert inbox.session(COACH).plans[0][0] == "thursday"
