"""Every mistake a coach can make in `rules/` gives its sentence: file, line, what is wrong, what was found, what to do.

`mistakes/_sound` is a small sound book. Every other folder holds the files of one mistake, laid over it, and in
`message.txt` the lines that must come, and no others; a line that ends in `...` gives only its beginning, because a
list that grows with the card language follows.
"""

import shutil
from itertools import zip_longest
from pathlib import Path

import pytest

from assistant.check import check
from assistant.rulebook import load
from assistant.values import RulebookError

FOLDER = Path(__file__).parent / "mistakes"
SOUND = FOLDER / "_sound"
FOLDERS = sorted(path for path in FOLDER.iterdir() if path.is_dir() and path != SOUND)
EXAMPLES = [path for path in FOLDERS if path.name.startswith("example-")]  # whole cards, but an example is wrong
MISTAKES = [path for path in FOLDERS if path not in EXAMPLES]


def laid_over(folder: Path, tmp_path: Path) -> Path:
    rules = tmp_path / "rules"
    shutil.copytree(SOUND, rules)
    shutil.copytree(folder, rules, dirs_exist_ok=True)
    return rules


def shortened(line: str, like: str) -> str:
    return line[: len(like) - 3] + "..." if like.endswith("...") else line


def same_lines(found: list[str], folder: Path) -> None:
    expected = (folder / "message.txt").read_text(encoding="utf-8").splitlines()
    assert [shortened(line, like) for line, like in zip_longest(found, expected, fillvalue="")] == expected


def test_the_sound_book_has_no_mistake():
    assert load(SOUND).exercises["push-up"].name == "Push-up"
    assert check(SOUND, answers=False).ok


@pytest.mark.parametrize("folder", MISTAKES, ids=lambda path: path.name)
def test_a_mistake_gives_its_sentence(folder, tmp_path):
    with pytest.raises(RulebookError) as caught:
        load(laid_over(folder, tmp_path))
    same_lines(str(caught.value).splitlines(), folder)


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda path: path.name)
def test_an_example_that_does_not_do_what_its_card_says_is_told(folder, tmp_path):
    report = check(laid_over(folder, tmp_path), answers=False)
    assert report.mistakes == ()
    same_lines([str(failing) for failing in report.failing], folder)


def test_a_folder_that_is_not_there_is_said_in_one_sentence(tmp_path):
    with pytest.raises(RulebookError) as caught:
        load(tmp_path / "nowhere")
    assert str(caught.value).endswith("nowhere, line 1: there is no such folder of rules; give --rules a folder")
