"""Words → clauses and sentences: punctuation first, then the words that open a new thought.

The opening words stand in two classes of cards: `clause/opens` (but, because, so ...) always open a clause;
`clause/subject` (i, my, it ...) open one after `and` or a comma. A clause shorter than three words joins the next.
"""

from __future__ import annotations

from assistant.words.tokens import CLAUSE_END, COMMA, SENTENCE_END, Word

_SHORT = 3  # words; "my wrist, and elbow, hurt" stays one thought
_PAIR = 5  # words; so does "my wrists and my elbows hurt"


def with_clauses(words: list[Word], opens: set[int], subjects: set[int]) -> list[Word]:
    """`words` with clause and sentence numbers. `opens`, `subjects`: positions of the words of the two classes."""
    starts = [0]
    for n, word in enumerate(words):
        if n == 0:
            continue
        so_far = n - starts[-1]
        comma = word.gap == COMMA and so_far >= _SHORT and (n in subjects or _own_thought(words, n, subjects))
        joined = words[n - 1].norm in ("and", "n", "nd") and so_far >= _PAIR and n in subjects
        if word.gap >= CLAUSE_END or n in opens or comma or joined:
            starts.append(n)
    result, clause, sentence = [], -1, -1
    begins = set(starts)
    for n, word in enumerate(words):
        clause += n in begins
        sentence += n == 0 or word.gap == SENTENCE_END
        moved = word.clause != clause or word.sentence != sentence
        result.append(word.placed(clause, sentence) if moved else word)
    return result


def _own_thought(words: list[Word], n: int, subjects: set[int]) -> bool:
    """Whether the part after the comma before word `n` is a thought of its own: long enough, with a subject in it."""
    length, subject = 0, False
    for place in range(n, len(words)):
        if place > n and words[place].gap >= COMMA:
            break
        length, subject = length + 1, subject or place in subjects
    return length > _SHORT and subject and words[n].norm not in ("or", "nor")
