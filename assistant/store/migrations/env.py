"""How a migration step meets the database: on the connection that `Store` hands over."""

from __future__ import annotations

from alembic import context

from assistant.store.tables import Table


def run() -> None:
    """Run the steps asked for on the given connection; SQLite changes tables by copying them."""
    context.configure(
        connection=context.config.attributes["connection"], target_metadata=Table.metadata, render_as_batch=True
    )
    with context.begin_transaction():
        context.run_migrations()


# Alembic runs this file; whoever only imports it (a doctest collector) finds no connection and runs nothing.
if getattr(context, "_proxy", None) is not None:
    run()
