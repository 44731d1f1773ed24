"""Messages are taken in before they are read: an index over those that wait to be drafted."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    where = sa.text("version = 0")
    op.create_index("ix_message_unread", "message", ["coach", "received"], sqlite_where=where, postgresql_where=where)


def downgrade() -> None:
    op.drop_index("ix_message_unread", "message")
