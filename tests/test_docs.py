"""What the documents say is so: commands, settings, card kinds, links, worked examples."""

import importlib
import re
import shutil
import sys
from pathlib import Path

import pytest
import typer

from assistant.__main__ import app
from assistant.check import examples, failing
from assistant.rulebook import load, read_book
from assistant.rulebook.cards import KINDS
from assistant.rulebook.validate import cross_check
from assistant.search import possible
from assistant.values import Asked, Limit, Message, Question
from assistant.web.settings import Settings

sys.path.insert(0, str(Path(__file__).parent))
output = importlib.import_module("readme_output")

ROOT = Path(__file__).parents[1]
DOCUMENTS = ["README.md", "DEVELOPERS.md", "rules/README.md", "demo_data/README.md", "tests/data/README.md"]
COMMAND = re.compile(r"(?:\.venv/bin/|[`\s])assistant ([a-z][a-z-]*)((?: [^\n`]*)?)")


def said(document: str) -> str:
    return (ROOT / document).read_text(encoding="utf-8")


def commands() -> dict[str, set[str]]:
    """Every sub-command of the command line with its options."""
    group = typer.main.get_command(app)
    return {
        name: {word for part in command.params for word in part.opts if word.startswith("--")}
        for name, command in group.commands.items()
    }


def in_code(text: str) -> str:
    """Only what stands in code: blocks and back-quoted words, one a line."""
    blocks = re.findall(r"```[a-z]*\n(.*?)```", text, re.S)
    return "\n".join([*blocks, *re.findall(r"`[^`\n]+`", re.sub(r"```.*?```", "", text, flags=re.S))])


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_command_and_option_written_down_exists(document):
    known = commands()
    for name, rest in COMMAND.findall(in_code(said(document))):
        assert name in known, f"assistant {name}"
        options = set(re.findall(r"(?<!\S)--[a-z-]+", rest)) - {"--help"}
        assert options <= known[name] | {"--rules", "--debug"}, f"assistant {name}{rest}"


def test_every_command_is_in_the_readme():
    table = said("README.md")
    assert [name for name in commands() if f"`assistant {name}`" not in table] == []


def test_every_setting_is_in_the_readme_with_its_default_and_no_other():
    rows = dict(re.findall(r"^\| `(ASSISTANT_[A-Z_]+)` \|.*\| (?:`([^`]*)`|[^|`]*) \|$", said("README.md"), re.M))
    fields = {f"ASSISTANT_{name.upper()}": field.default for name, field in Settings.model_fields.items()}
    assert set(rows) == set(fields)
    for name, default in fields.items():
        assert rows[name] == ("" if default in (None, "") else str(default)), name


def test_the_lines_for_the_demo_and_the_tests_are_there():
    text = said("README.md")
    assert "python3 -m venv .venv && .venv/bin/pip install -q . && .venv/bin/assistant demo" in text
    assert "python3 -m venv .venv && .venv/bin/pip install -q -e '.[test]' && .venv/bin/pytest" in text


def test_the_readme_says_what_the_program_is_not():
    text = said("README.md").lower()
    for words in (
        "not a medical device",
        "not an emergency service",
        "round the clock",
        "not been reviewed by a clinician",
    ):
        assert words in text, words


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_link_leads_to_a_file_or_to_a_heading(document):
    text, folder = said(document), (ROOT / document).parent
    titles = re.findall(r"^#+ (.+)$", text, re.M)
    headings = {re.sub(r"[^\w\- ]", "", title).strip().lower().replace(" ", "-") for title in titles}
    for link in re.findall(r"\]\(([^)]+)\)", text):
        if link.startswith("#"):
            assert link[1:] in headings, link
        elif "://" not in link:
            assert (folder / link.partition("#")[0]).exists(), link


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_every_file_and_folder_named_exists(document):
    named = re.findall(r"`((?:assistant|rules|tests|demo_data)/[\w./-]*)`", said(document))
    assert named
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_every_kind_of_card_has_its_worked_example():
    sections = re.findall(r"^### ([a-z]+)\n(.*?)(?=^### |\Z)", said("rules/README.md"), re.S | re.M)
    assert {name for name, _ in sections} == set(KINDS)
    for name, text in sections:
        assert f"```yaml\n- {name}: " in text, name


def worked_examples() -> list[str]:
    return re.findall(r"```yaml\n(.*?)```", said("rules/README.md"), re.S)


def test_every_worked_example_is_a_card_that_can_be_read(tmp_path):
    (tmp_path / "examples.yaml").write_text("\n".join(worked_examples()), encoding="utf-8")
    book, _, mistakes = read_book(tmp_path)
    assert [str(mistake) for mistake in mistakes] == []
    assert [kind for kind in KINDS if not book.cards[kind]] == []
    assert sum(len(shelf) for shelf in book.cards.values()) == len(worked_examples())


def copy_of_the_rules(tmp_path: Path) -> Path:
    return Path(shutil.copytree(ROOT / "rules", tmp_path / "rules"))


def test_the_worked_examples_have_no_mistake_beside_the_cards_in_force_and_do_what_they_say(tmp_path):
    rules = copy_of_the_rules(tmp_path)
    (rules / "worked.yaml").write_text("\n".join(worked_examples()), encoding="utf-8")
    book, raw, mistakes = read_book(rules)
    assert [str(mistake) for mistake in mistakes + cross_check(book, raw)] == []
    own = [example for example in examples(book) if example.at.startswith("worked.yaml")]
    assert len(own) >= 20
    assert [str(found) for found in (failing(example, book) for example in own) if found] == []


def test_the_number_to_change_for_a_sore_wrist_is_on_its_card_and_makes_it_stricter(tmp_path):
    found = re.search(r"its card in `limits/joints.yaml`: `(.+?)` to\n`(.+?)`", said("rules/README.md"))
    rules = copy_of_the_rules(tmp_path)
    card = rules / "limits" / "joints.yaml"
    before, text = load(rules), card.read_text(encoding="utf-8")
    start = text.index("- limit: wrist-sore")
    assert found[1] in text[start : text.index("- limit:", start + 1)]
    card.write_text(text[:start] + text[start:].replace(found[1], found[2], 1), encoding="utf-8")
    sore = Limit("wrist-sore", "pain", None, "", 0, 0)
    asked = Question(("swap",), (Asked("dip", "", 0, 0, "name"),), (sore,))
    assert "foot-assisted-dip" in possible("dip", asked, Message(""), before)  # it bends the wrist by 20 degrees
    assert "foot-assisted-dip" not in possible("dip", asked, Message(""), load(rules))


def test_the_output_in_the_readme_is_what_the_commands_print():
    blocks = output.shown(said("README.md"))
    assert len(blocks) == 2
    for command, text in blocks:
        now = output.printed(command)
        same = output.without_line_numbers(text) == output.without_line_numbers(now)
        assert same, f"{command} prints something else now; run: python tests/readme_output.py"


@pytest.mark.parametrize("document", DOCUMENTS)
def test_no_document_names_a_path_of_the_machine_it_was_written_on(document):
    assert re.findall(r"(?<![\w.])/(?:work|tmp|home|root|farm)/\S*", said(document)) == []
