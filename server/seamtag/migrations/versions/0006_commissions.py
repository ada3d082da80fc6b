"""Commission numbers of authorized inspectors, and for whom they stand in"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

ADDED = ("commission", "stands_in_for")


def upgrade() -> None:
    with op.batch_alter_table("person") as table:
        for name in ADDED:
            table.add_column(sa.Column(name, sa.String(), nullable=False, server_default=""))


def downgrade() -> None:
    with op.batch_alter_table("person") as table:
        for name in ADDED:
            table.drop_column(name)
