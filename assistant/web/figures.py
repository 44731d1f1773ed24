"""All figures of the book on one page, family by family: to be looked at, printed, kept."""

from __future__ import annotations

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from assistant.figure import figure
from assistant.rulebook import Rulebook
from assistant.web.render import PAGES


def contact_sheet(book: Rulebook) -> str:
    """One HTML page that needs no other file: every exercise with a pose, in the order of the families."""
    jinja = Environment(loader=FileSystemLoader(PAGES), autoescape=True, undefined=StrictUndefined,
                        trim_blocks=True, lstrip_blocks=True)  # fmt: skip
    families = []
    for family in book.families.values():
        cards = [card for card in book.exercises.values() if card.family == family.id]
        drawn = [(card, figure(card.id, book)) for card in cards]
        families.append((family, [pair for pair in drawn if pair[1]], [card for card, one in drawn if not one]))
    style = (PAGES / "static" / "style.css").read_text(encoding="utf-8")
    return jinja.get_template("figures.html").render(families=families, style=style, book=book.fingerprint)
