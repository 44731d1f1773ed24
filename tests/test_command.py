"""The command line of the contract."""

import json
import subprocess
import sys

import pytest

CHINUPS = "no bar at the cabin, what instead of chinups? wrists fine"


def run(*words, text=None):
    return subprocess.run(
        [sys.executable, "-m", "assistant", *words], input=text, capture_output=True, text=True, timeout=60
    )


def test_try_names_exercise_missing_bar_denied_wrist_and_a_pull_without_a_bar():
    done = run("try", CHINUPS, "--json")
    assert done.returncode == 0, done.stderr
    line = json.loads(done.stdout)
    assert [e["id"] for e in line["question"]["exercises"]] == ["chin-up"]
    assert line["question"]["lacks"] == ["overhead-bar"]
    assert [d["id"] for d in line["question"]["denied"]] == ["wrist-sore"]
    best = next(s for s in line["swaps"] if s["recommended"])
    assert best["exercise"] in ("table-row", "sheet-door-row", "backpack-row", "floor-pullover", "floor-slide-pull")
    assert best["dose"]["sets"] >= 1
    assert best["because"] and all(r["rule"] and ".yaml:" in r["at"] for r in best["because"])
    for limit in (*line["question"]["limits"], *line["question"]["denied"], *line["question"]["exercises"]):
        assert line["text"][limit["start"] : limit["end"]] == limit["words"]


def test_try_shows_a_block_per_verb():
    done = run("try", CHINUPS)
    assert done.returncode == 0, done.stderr
    assert all(
        word in done.stdout for word in ("read", "screen", "search and dose", "write", "chin-up", "no-overhead-bar")
    )


def test_lines_come_out_in_order_and_a_bad_one_keeps_its_place():
    lines = ['{"text": "no bar"}', "not json", '{"text": ""}', '{"text": "no bar", "plan": "nowhere"}',
             '{"text": "thanks!"}']  # fmt: skip
    done = run("try", "--lines", text="\n".join(lines) + "\n")
    out = [json.loads(line) for line in done.stdout.splitlines()]
    assert done.returncode == 1
    assert ["error" in line for line in out] == [False, True, True, True, False]
    assert "no plan 'nowhere'" in out[3]["error"]


@pytest.mark.parametrize(
    "words",
    [
        ("try",),
        ("try", "no bar", "--plan", "nowhere"),
        ("try", "--lines", "no-such-file"),
        ("try", "   "),
        ("nonsense",),
    ],
)
def test_usage_mistakes_exit_2_without_a_traceback(words):
    done = run(*words)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr + done.stdout


def test_a_broken_rulebook_is_told_by_file_and_line(tmp_path):
    (tmp_path / "a.yaml").write_text("- exercise: x\n  nonsense: 1\n")
    done = run("try", "no bar", "--rules", str(tmp_path))
    assert done.returncode == 1 and "a.yaml, line" in done.stderr and "Traceback" not in done.stderr
