"""A process that is killed at any moment: what it has told somebody is kept, and nothing is kept by halves."""

import json
import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from tests.test_inbox.made_up import COACH, Clock, Verbs, fill, inbox_at, new_archive

ROOT = Path(__file__).resolve().parents[1]
RECEIVES = """
import json, sys
from pathlib import Path
from tests.test_inbox.made_up import COACH, Clock, Verbs, inbox_at

inbox = inbox_at(Path(sys.argv[1]), Verbs(), Clock())
for number in range(int(sys.argv[3])):
    receipt = inbox.receive(COACH, sys.argv[2], f"no bar, time {number}")
    print(json.dumps({"id": receipt.id, "thread": receipt.thread, "text": f"no bar, time {number}"}), flush=True)
sys.stdin.read()  # wait to be killed
"""


@pytest.fixture
def file(tmp_path):
    return new_archive(tmp_path / "archive.db")


def receiving(file, follower, many):
    """A process that takes `many` messages in and prints a receipt for each."""
    command = [sys.executable, "-c", RECEIVES, str(file), follower, str(many)]
    return subprocess.Popen(command, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, text=True,
                            stdin=subprocess.PIPE, stdout=subprocess.PIPE)  # fmt: skip


def kill(process):
    """Kill without a chance to tidy up; gives what was printed before and not read yet."""
    process.send_signal(signal.SIGKILL)
    rest, _ = process.communicate()
    assert process.returncode == -signal.SIGKILL
    return rest


def test_a_message_whose_receipt_was_printed_is_there_after_the_process_is_killed(file):
    teuvo = fill(inbox_at(file, Verbs(), Clock()))
    process = receiving(file, teuvo["token"], 1)
    receipt = json.loads(process.stdout.readline())
    kill(process)
    inbox = inbox_at(file, Verbs(), Clock())
    opened = inbox.open(COACH, receipt["id"])
    assert (opened.row.text, opened.row.result["draft"]["text"]) == ("no bar, time 0", "Hi Teuvo, do inverted-row.")
    assert [turn["text"] for turn in inbox.conversation(receipt["thread"]).turns] == ["no bar, time 0"]
    inbox.decide(COACH, receipt["id"], "approved", "Hi Teuvo, do inverted-row.")
    assert inbox.status(COACH, receipt["id"], teuvo["token"])["status"] == "answered"


def test_two_processes_killed_in_the_middle_of_work_lose_no_receipt_and_leave_nothing_half(file):
    teuvo = fill(inbox_at(file, Verbs(), Clock()))
    processes = [receiving(file, teuvo["token"], 100_000) for _ in range(2)]
    printed = [process.stdout.readline() for _ in range(20) for process in processes]
    printed += [line for process in processes for line in kill(process).splitlines()]
    receipts = [json.loads(line) for line in printed if line.strip().endswith("}")]
    assert len(receipts) >= 40
    inbox = inbox_at(file, Verbs(), Clock())
    kept = {turn["id"]: turn["text"] for turn in inbox.conversation(teuvo["token"]).turns}
    assert {receipt["id"]: kept.get(receipt["id"]) for receipt in receipts} == {r["id"]: r["text"] for r in receipts}
    with sqlite3.connect(file) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        half = "SELECT count(*) FROM message m LEFT JOIN draft d ON d.message = m.id WHERE d.message IS NULL"
        assert connection.execute(half).fetchone() == (0,)
