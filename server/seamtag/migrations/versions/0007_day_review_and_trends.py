"""What the day review and the trends are read from: lists, decisions, releases and values, kept with the records"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

CREATED = ("decision", "piece_state", "released", "list_line", "measured", "series", "watched")


def texts(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(), nullable=False) for name in names]


def numbers(*names: str) -> list[sa.Column[int]]:
    return [sa.Column(name, sa.Integer(), nullable=False) for name in names]


def create_decision() -> None:
    op.create_table(
        "decision",
        *texts("id", "state", "job", "piece", "step", "item", "station", "flag", "record", "disposition", "ncr",
               "reason", "extent", "by", "at"),
        *numbers("number", "cycle", "received"),
        *(sa.Column(name, sa.JSON(), nullable=False) for name in ("again", "lacking", "shown")),
        sa.PrimaryKeyConstraint("id", name="pk_decision"),
    )  # fmt: skip
    op.create_index("ix_decision_state_number", "decision", ["state", "number"])
    op.create_index("ix_decision_job_piece", "decision", ["job", "piece"])


def create_lists() -> None:
    op.create_table(
        "piece_state",
        *texts("job", "piece"),
        sa.Column("states", sa.JSON(), nullable=False),
        sa.Column("scrapped", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("job", "piece", name="pk_piece_state"),
    )
    op.create_table(
        "released",
        *texts("job", "piece", "step"),
        *numbers("received"),
        sa.PrimaryKeyConstraint("job", "piece", "step", name="pk_released"),
    )
    op.create_index("ix_released_received", "released", ["received"])
    op.create_table(
        "list_line",
        *texts("name", "job", "piece", "step", "record"),
        *numbers("since"),
        sa.Column("shown", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("name", "job", "piece", "step", "record", name="pk_list_line"),
    )
    op.create_index("ix_list_line_name_since", "list_line", ["name", "since"])
    op.create_index("ix_list_line_job_piece", "list_line", ["job", "piece"])


def create_trends() -> None:
    op.create_table(
        "measured",
        *texts("id", "record", "job", "piece", "mark", "kind", "plan", "step", "item", "station", "by", "gauge",
               "procedure", "at", "uom", "verdict", "standing"),
        *numbers("number", "received"),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("lower", sa.Float()),
        sa.Column("upper", sa.Float()),
        sa.PrimaryKeyConstraint("id", name="pk_measured"),
    )  # fmt: skip
    op.create_index("ix_measured_series", "measured", ["plan", "step", "item", "number"])
    op.create_index("ix_measured_job_piece", "measured", ["job", "piece"])
    op.create_index("ix_measured_received", "measured", ["received"])
    op.create_table(
        "series",
        *texts("plan", "step", "item", "step_number", "step_name", "name", "uom"),
        *numbers("count", "last"),
        sa.PrimaryKeyConstraint("plan", "step", "item", name="pk_series"),
    )
    op.create_table(
        "watched",
        *texts("plan", "step", "item"),
        sa.Column("rules", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("plan", "step", "item", name="pk_watched"),
    )


def upgrade() -> None:
    with op.batch_alter_table("flag") as table:
        table.add_column(sa.Column("severity", sa.Float(), nullable=False, server_default="0"))
        for name in ("stage", "by"):
            table.add_column(sa.Column(name, sa.String(), nullable=False, server_default=""))
        table.add_column(sa.Column("received", sa.Integer(), nullable=False, server_default="0"))
        table.add_column(sa.Column("shown", sa.JSON(), nullable=False, server_default="{}"))
        for old in ("ix_flag_state_rank_past", "ix_flag_piece"):
            table.drop_index(old)
        table.create_index("ix_flag_state_rank_severity_number", ["state", "rank", "severity", "number"])
        table.create_index("ix_flag_state_received", ["state", "received"])
        table.create_index("ix_flag_received_record", ["received", "record"])
        table.create_index("ix_flag_kind_step_item_state_job", ["kind", "step", "item", "state", "job"])
        table.create_index("ix_flag_record", ["record"])
        table.create_index("ix_flag_job_piece", ["job", "piece"])
    with op.batch_alter_table("record") as table:
        table.add_column(sa.Column("clock", sa.Integer(), nullable=False, server_default="0"))
    with op.batch_alter_table("photo") as table:
        table.add_column(sa.Column("record", sa.String(), nullable=False, server_default=""))
        table.create_index("ix_photo_record", ["record"])
    with op.batch_alter_table("device") as table:
        for name in ("oldest", "holds_until"):
            table.add_column(sa.Column(name, sa.Integer(), nullable=False, server_default="0"))
    create_decision()
    create_lists()
    create_trends()


def downgrade() -> None:
    for name in reversed(CREATED):
        op.drop_table(name)
    with op.batch_alter_table("device") as table:
        for name in ("oldest", "holds_until"):
            table.drop_column(name)
    with op.batch_alter_table("photo") as table:
        table.drop_index("ix_photo_record")
        table.drop_column("record")
    with op.batch_alter_table("record") as table:
        table.drop_column("clock")
    with op.batch_alter_table("flag") as table:
        for name in ("state_rank_severity_number", "state_received", "received_record", "kind_step_item_state_job",
                     "record", "job_piece"):  # fmt: skip
            table.drop_index(f"ix_flag_{name}")
        for name in ("severity", "stage", "by", "received", "shown"):
            table.drop_column(name)
        table.create_index("ix_flag_piece", ["piece"])
        table.create_index("ix_flag_state_rank_past", ["state", "rank", "past"])
