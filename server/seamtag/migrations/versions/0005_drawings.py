"""Drawings, with pieces pinned on them"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "drawing",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("job", sa.String(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=False),
        sa.Column("revision", sa.String(), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("media_type", sa.String(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("pins", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["job.id"], name=op.f("fk_drawing_job_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_drawing")),
    )
    with op.batch_alter_table("drawing") as table:
        table.create_index(op.f("ix_drawing_job"), ["job"])


def downgrade() -> None:
    op.drop_table("drawing")
