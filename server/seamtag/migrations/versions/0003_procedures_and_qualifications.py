"""Welding procedures, and welders' qualifications"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "procedure",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("document", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_procedure")),
    )
    op.create_table(
        "qualification",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("process", sa.String(), nullable=False),
        sa.Column("test", sa.String(), nullable=False),
        sa.Column("coupon", sa.String(), nullable=False),
        sa.Column("layers", sa.Integer(), nullable=False),
        sa.Column("coupon_od", sa.String(), nullable=True),
        sa.Column("tested", sa.String(), nullable=False),
        sa.Column("certificate", sa.String(), nullable=False),
        sa.Column("continued", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_qualification_person_person")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_qualification")),
    )
    with op.batch_alter_table("qualification") as table:
        table.create_index(op.f("ix_qualification_person"), ["person"])


def downgrade() -> None:
    op.drop_table("qualification")
    op.drop_table("procedure")
