"""Reply templates must parse and use only the fields they list."""

from __future__ import annotations

from jinja2 import Environment, TemplateError, meta

from assistant.rulebook.validate.pencil import Pencil, meant


def check_replies(pencil: Pencil) -> None:
    """Notes templates that cannot be read and fields that are not listed."""
    jinja = Environment()
    for card in pencil.book.replies.values():
        try:
            used = meta.find_undeclared_variables(jinja.parse(card.text))
        except TemplateError as error:
            pencil.note(
                card,
                ("text",),
                f"the template of reply '{card.id}' cannot be read",
                str(error.message).rstrip("."),
                "correct the braces or the word inside them",
            )
            continue
        for name in sorted(used - set(card.fields)):
            pencil.note(
                card,
                ("text",),
                f"reply '{card.id}' uses a field it does not list",
                f"found '{name}'",
                meant(name, card.fields, "field"),
            )
