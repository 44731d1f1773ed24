"""The thread behind the doors: it begins when it is quiet, at the latest after a while, and survives a failure."""

import threading
import time

from assistant.inbox.drafter import Drafter

LONG_S = 20  # far more than any wait here: only a broken drafter comes to it


def test_it_drafts_for_the_coach_once_it_is_quiet():
    read = threading.Event()
    Drafter(lambda coach: read.set() or 1, quiet_s=0.01).taken("ferry-lane")
    assert read.wait(LONG_S)


def test_messages_that_keep_coming_do_not_put_it_off_for_ever():
    read = threading.Event()
    drafter = Drafter(lambda coach: read.set() or 1, quiet_s=LONG_S, latest_s=0.05)
    until = time.monotonic() + LONG_S
    while not read.is_set() and time.monotonic() < until:
        drafter.taken("ferry-lane")
        time.sleep(0.001)
    assert read.is_set()


def test_a_rush_of_messages_is_drafted_in_one_go():
    reads, done = [], threading.Event()
    drafter = Drafter(lambda coach: reads.append(coach) or done.set() or 1, quiet_s=0.2, latest_s=LONG_S)
    for _ in range(50):
        drafter.taken("ferry-lane")
    assert done.wait(LONG_S)
    assert reads == ["ferry-lane"]


def test_a_failure_does_not_end_it():
    reads, done = [], threading.Event()

    def read(coach):
        reads.append(coach)
        if coach == "mill-street":
            done.set()
            return 1
        raise RuntimeError("no")

    drafter = Drafter(read, quiet_s=0.01)
    drafter.taken("ferry-lane")
    drafter.taken("mill-street")
    assert done.wait(LONG_S)
    assert sorted(reads) == ["ferry-lane", "mill-street"]
