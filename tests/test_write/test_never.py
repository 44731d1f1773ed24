"""What no reply ever says, whatever the situation: no diagnosis, no medicine, no promise, no hype."""

import re

import pytest

NEVER = {
    "a diagnosis": r"tend[io]n[io]tis|tendinopath|arthriti|impinge|bursitis|sciatica|herniat|sounds like|diagnos"
    r"|you (?:probably )?have a |it is (?:just|only|probably)|nothing to worry|probably (?:muscular|nothing)",
    "a medicine": r"ibuprofen|paracetamol|acetaminophen|aspirin|painkiller|anti-inflammator|\btablet|\bpill\b|\bice it",
    "a promise": r"\bheals?\b|\bcures?\b|guarantee|will fix|fixes your|makes? the pain go|pain will|in no time",
    "hype": r"amazing|awesome|crush it|smash|beast|no pain,? no gain|push through|you've got this|let's go\b|legend",
    "a machine talking": r"as an ai\b|language model|i am an assistant|i'm an assistant|\bbot\b|algorithm",
    "a bare emergency number": r"\b(?:911|999|112|000|111|988)\b",
    "a remark on the body": r"\bfat\b|overweight|lose weight|skinny|obese",
    "blame": r"your (?:own )?fault|you should have|lazy|excuse",
}  # fmt: skip
EMOJI = re.compile("[\U0001f300-\U0001faff☀-➿]")


@pytest.mark.parametrize("what", NEVER)
def test_no_template_and_no_draft_holds(room, drafts, what):
    pattern = re.compile(NEVER[what], re.IGNORECASE)
    texts = {f"card {card.id}": card.text for card in room.book.replies.values()}
    texts |= {f"rule {card.id}": card.how for card in room.book.doserules.values()}
    texts |= {f"draft {name}": f"{draft.text}\n{draft.summary}\n{draft.notice or ''}" for name, draft in drafts.items()}
    for name, text in texts.items():
        assert not pattern.search(text), (name, pattern.search(text)[0])


def test_the_list_itself_catches_what_it_should():
    caught = {
        "a diagnosis": "that sounds like tendonitis", "a medicine": "take an ibuprofen", "a promise": "it will heal",
        "hype": "you've got this", "a machine talking": "As an AI", "a bare emergency number": "call 112",
        "a remark on the body": "you are overweight", "blame": "that is your own fault",
    }  # fmt: skip
    for what, sentence in caught.items():
        assert re.search(NEVER[what], sentence, re.IGNORECASE), what


def test_no_emoji_and_no_exclamation_marks(room, drafts):
    for card in room.book.replies.values():
        assert not re.search(r"!(?!=)", card.text) and not EMOJI.search(card.text), card.id
    for name, draft in drafts.items():
        assert "!" not in draft.text and not EMOJI.search(draft.text), name
