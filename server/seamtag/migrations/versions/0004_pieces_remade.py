"""Pieces that were remade"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("piece") as table:
        table.add_column(sa.Column("remade", sa.String(), nullable=False, server_default=""))


def downgrade() -> None:
    with op.batch_alter_table("piece") as table:
        table.drop_column("remade")
