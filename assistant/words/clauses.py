"""Words → clauses and sentences: punctuation first, then the words that open a new thought.

The opening words stand in two classes of cards: `clause/opens` (but, because, so ...) always open a clause;
`clause/subject` (i, my, it ...) open one after `and` or a comma. A clause shorter than three words joins the next.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.words.tokens import CLAUSE_END, COMMA, SENTENCE_END, Word

_SHORT = 3  # words; "my wrist, and elbow, hurt" stays one thought


def with_clauses(words: list[Word], opens: set[int], subjects: set[int]) -> list[Word]:
    """`words` with clause and sentence numbers. `opens`, `subjects`: positions of the words of the two classes."""
    starts = [0]
    for n, word in enumerate(words):
        if n == 0:
            continue
        after_joint = word.gap == COMMA or words[n - 1].norm in ("and", "n", "nd")
        soft = n in opens or (after_joint and n in subjects) or (word.gap == COMMA and _long_part(words, n))
        if word.gap >= CLAUSE_END or (soft and (n - starts[-1] >= _SHORT or n in opens)):
            starts.append(n)
    result, clause, sentence = [], -1, -1
    begins = set(starts)
    for n, word in enumerate(words):
        clause += n in begins
        sentence += n == 0 or word.gap == SENTENCE_END
        result.append(replace(word, clause=clause, sentence=sentence))
    return result


def _long_part(words: list[Word], n: int) -> bool:
    """Whether the part after the comma before word `n` is long enough to be a thought of its own."""
    length = 1
    for word in words[n + 1 :]:
        if word.gap >= COMMA:
            break
        length += 1
    return length > _SHORT
