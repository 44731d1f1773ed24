"""Cross-checks of a whole rulebook: what no single card can know. All mistakes in one run, none of them raised."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.rulebook.cardfile import RawCard
from assistant.rulebook.validate.frames import check_frames
from assistant.rulebook.validate.names import check_names
from assistant.rulebook.validate.pencil import Pencil
from assistant.rulebook.validate.poses import check_poses
from assistant.rulebook.validate.proofs import check_proofs
from assistant.rulebook.validate.replies import check_replies
from assistant.rulebook.validate.spellings import check_spellings
from assistant.rulebook.validate.steps import check_steps
from assistant.rulebook.validate.vocabulary import check_vocabulary
from assistant.values import Mistake

if TYPE_CHECKING:
    from assistant.rulebook import Rulebook

_CHECKS = (
    check_names, check_frames, check_steps, check_poses, check_spellings, check_vocabulary, check_replies, check_proofs,
)  # fmt: skip


def cross_check(book: Rulebook, raw: dict[tuple[str, str], RawCard]) -> list[Mistake]:
    """Every mistake between the cards of `book`, sorted by file and line."""
    pencil = Pencil(book, raw)
    for check in _CHECKS:
        check(pencil)
    return sorted(pencil.mistakes, key=lambda mistake: (mistake.file, mistake.line, mistake.wrong))
