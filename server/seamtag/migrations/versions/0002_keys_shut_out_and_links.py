"""Keys shut out, how each record follows its key's last, and records adopted after all"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("key") as key:
        key.add_column(sa.Column("shut_since", sa.BigInteger(), nullable=True))
    with op.batch_alter_table("record") as record:
        record.add_column(sa.Column("link", sa.String(), nullable=False, server_default=""))
        record.create_index(op.f("ix_record_digest"), ["digest"])
        record.create_index(op.f("ix_record_device"), ["device"])
    with op.batch_alter_table("refusal") as refusal:
        refusal.add_column(sa.Column("adopted", sa.Integer(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("refusal") as refusal:
        refusal.drop_column("adopted")
    with op.batch_alter_table("record") as record:
        record.drop_index(op.f("ix_record_device"))
        record.drop_index(op.f("ix_record_digest"))
        record.drop_column("link")
    with op.batch_alter_table("key") as key:
        key.drop_column("shut_since")
