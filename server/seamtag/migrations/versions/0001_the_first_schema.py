"""The first schema"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def create_challenge() -> None:
    op.create_table(
        "challenge",
        sa.Column("nonce", sa.String(), nullable=False),
        sa.Column("expires", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("nonce", name=op.f("pk_challenge")),
    )


def create_device() -> None:
    op.create_table(
        "device",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("last_heard", sa.Integer(), nullable=False),
        sa.Column("waiting", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
    )


def create_entry() -> None:
    op.create_table(
        "entry",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("scope", sa.String(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("stamp", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_entry")),
        sa.UniqueConstraint("hash", name=op.f("uq_entry_hash")),
    )
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.create_index("ix_entry_kind_scope_number", ["kind", "scope", "number"], unique=False)
        batch_op.create_index("ix_entry_scope_number", ["scope", "number"], unique=False)


def create_flag() -> None:
    op.create_table(
        "flag",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("job", sa.String(), nullable=False),
        sa.Column("piece", sa.String(), nullable=False),
        sa.Column("step", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("station", sa.String(), nullable=False),
        sa.Column("record", sa.String(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("disposition", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("past", sa.Float(), nullable=True),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_flag")),
    )
    with op.batch_alter_table("flag", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_flag_piece"), ["piece"], unique=False)
        batch_op.create_index("ix_flag_state_rank_past", ["state", "rank", "past"], unique=False)


def create_gauge() -> None:
    op.create_table(
        "gauge",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("uom", sa.String(), nullable=False),
        sa.Column("uncertainty", sa.String(), nullable=True),
        sa.Column("certificate", sa.String(), nullable=False),
        sa.Column("calibrated", sa.String(), nullable=True),
        sa.Column("due", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gauge")),
    )


def create_job() -> None:
    op.create_table(
        "job",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job")),
    )


def create_mark() -> None:
    op.create_table(
        "mark",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("value", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_mark")),
    )


def create_person() -> None:
    op.create_table(
        "person",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("roles", sa.JSON(), nullable=False),
        sa.Column("stamp", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
    )


def create_photo() -> None:
    op.create_table(
        "photo",
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("named", sa.Boolean(), nullable=False),
        sa.Column("stored", sa.Boolean(), nullable=False),
        sa.Column("bytes", sa.Integer(), nullable=False),
        sa.Column("shown", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("sha256", name=op.f("pk_photo")),
    )


def create_plan_revision() -> None:
    op.create_table(
        "plan_revision",
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("document", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_plan_revision")),
        sa.UniqueConstraint("code", "revision", name=op.f("uq_plan_revision_code_revision")),
    )


def create_refusal() -> None:
    op.create_table(
        "refusal",
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kid", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("received", sa.Integer(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_refusal")),
    )
    with op.batch_alter_table("refusal", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_refusal_id"), ["id"], unique=False)


def create_basis() -> None:
    op.create_table(
        "basis",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("job", sa.String(), nullable=False),
        sa.Column("plan", sa.String(), nullable=False),
        sa.Column("figures", sa.Integer(), nullable=False),
        sa.Column("values", sa.JSON(), nullable=False),
        sa.Column("drawings", sa.JSON(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["job.id"], name=op.f("fk_basis_job")),
        sa.ForeignKeyConstraint(["plan"], ["plan_revision.hash"], name=op.f("fk_basis_plan")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_basis")),
        sa.UniqueConstraint("job", "plan", "figures", name=op.f("uq_basis_job_plan_figures")),
    )
    with op.batch_alter_table("basis", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_basis_job"), ["job"], unique=False)


def create_invitation() -> None:
    op.create_table(
        "invitation",
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("expires", sa.Integer(), nullable=False),
        sa.Column("used", sa.Integer(), nullable=True),
        sa.Column("inviter", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_invitation_person")),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_invitation")),
    )
    with op.batch_alter_table("invitation", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_invitation_person"), ["person"], unique=False)


def create_key() -> None:
    op.create_table(
        "key",
        sa.Column("kid", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("jwk", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_key_person")),
        sa.PrimaryKeyConstraint("kid", name=op.f("pk_key")),
    )
    with op.batch_alter_table("key", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_key_person"), ["person"], unique=False)


def create_piece() -> None:
    op.create_table(
        "piece",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("job", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("mark", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("part_of", sa.JSON(), nullable=False),
        sa.Column("joins", sa.JSON(), nullable=False),
        sa.Column("figures", sa.JSON(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["job.id"], name=op.f("fk_piece_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_piece")),
        sa.UniqueConstraint("job", "mark", name=op.f("uq_piece_job_mark")),
    )
    with op.batch_alter_table("piece", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_piece_job"), ["job"], unique=False)


def create_record() -> None:
    op.create_table(
        "record",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("type", sa.String(), nullable=False),
        sa.Column("job", sa.String(), nullable=False),
        sa.Column("piece", sa.String(), nullable=False),
        sa.Column("step", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("station", sa.String(), nullable=False),
        sa.Column("by", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("kid", sa.String(), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("prev", sa.String(), nullable=False),
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("received", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("verdict", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("value", sa.String(), nullable=True),
        sa.Column("value_float", sa.Float(), nullable=True),
        sa.Column("margin", sa.String(), nullable=True),
        sa.Column("waiting", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["entry.number"], name=op.f("fk_record_number")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_record")),
        sa.UniqueConstraint("number", name=op.f("uq_record_number")),
    )
    with op.batch_alter_table("record", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_record_by"), ["by"], unique=False)
        batch_op.create_index("ix_record_job_piece_step_item", ["job", "piece", "step", "item"], unique=False)
        batch_op.create_index("ix_record_kid_seq", ["kid", "seq"], unique=False)
        batch_op.create_index(batch_op.f("ix_record_received"), ["received"], unique=False)


def create_role_change() -> None:
    op.create_table(
        "role_change",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("roles", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_role_change_person")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_role_change")),
    )
    with op.batch_alter_table("role_change", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_role_change_person"), ["person"], unique=False)


def create_sign_in() -> None:
    op.create_table(
        "sign_in",
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("kid", sa.String(), nullable=False),
        sa.Column("begun", sa.Integer(), nullable=False),
        sa.Column("last_used", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["kid"], ["key.kid"], name=op.f("fk_sign_in_kid")),
        sa.ForeignKeyConstraint(["person"], ["person.id"], name=op.f("fk_sign_in_person")),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_sign_in")),
    )
    with op.batch_alter_table("sign_in", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sign_in_person"), ["person"], unique=False)


def create_tag() -> None:
    op.create_table(
        "tag",
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("piece", sa.String(), nullable=False),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["piece"], ["piece.id"], name=op.f("fk_tag_piece")),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_tag")),
    )
    with op.batch_alter_table("tag", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_tag_piece"), ["piece"], unique=False)


TABLES = (
    create_challenge,
    create_device,
    create_entry,
    create_flag,
    create_gauge,
    create_job,
    create_mark,
    create_person,
    create_photo,
    create_plan_revision,
    create_refusal,
    create_basis,
    create_invitation,
    create_key,
    create_piece,
    create_record,
    create_role_change,
    create_sign_in,
    create_tag,
)


def upgrade() -> None:
    for create in TABLES:
        create()


def downgrade() -> None:
    for create in reversed(TABLES):
        op.drop_table(create.__name__.removeprefix("create_"))
