from typing import Any

from sqlalchemy import JSON, Float, Index
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class FlagRow(Base):
    """A flag as core works it out, kept for the review; derived anew whenever a piece's records change.

    number, by, received: of its record. past: how far past the limit, in tolerances; severity: the same below zero, so
    that within a rank the worst sorts first. stage: its number in the plan. shown: what the list says of it, in the
    form of the review's answer.
    """

    __tablename__ = "flag"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    state: Mapped[str]
    job: Mapped[str]
    piece: Mapped[str]
    step: Mapped[str]
    item: Mapped[str]
    station: Mapped[str]
    record: Mapped[str]
    number: Mapped[int]
    disposition: Mapped[str]
    reason: Mapped[str]
    past: Mapped[float | None] = mapped_column(Float)
    rank: Mapped[int]
    severity: Mapped[float] = mapped_column(Float, default=0.0, server_default="0")
    stage: Mapped[str] = mapped_column(default="", server_default="")
    by: Mapped[str] = mapped_column(default="", server_default="")
    received: Mapped[int] = mapped_column(default=0, server_default="0")
    shown: Mapped[dict[str, Any]] = mapped_column(JSON, default=dict, server_default="{}")


Index("ix_flag_state_rank_severity_number", FlagRow.state, FlagRow.rank, FlagRow.severity, FlagRow.number)
Index("ix_flag_state_received", FlagRow.state, FlagRow.received)
Index("ix_flag_received_record", FlagRow.received, FlagRow.record)
Index("ix_flag_kind_step_item_state_job", FlagRow.kind, FlagRow.step, FlagRow.item, FlagRow.state, FlagRow.job)
Index("ix_flag_record", FlagRow.record)
Index("ix_flag_job_piece", FlagRow.job, FlagRow.piece)


class Decision(Base):
    """What became of a finding: a disposition as it stands now; derived as the flags are.

    state: to do; waits for agreement; done; no effect; void. lacking: the parties that have still to agree. cycle: the
    number of the repair, 0 where it is none or does not stand. again: the steps to inspect again.
    """

    __tablename__ = "decision"

    id: Mapped[str] = mapped_column(primary_key=True)
    number: Mapped[int]
    state: Mapped[str]
    job: Mapped[str]
    piece: Mapped[str]
    step: Mapped[str]
    item: Mapped[str]
    station: Mapped[str]
    flag: Mapped[str]
    record: Mapped[str]
    disposition: Mapped[str]
    ncr: Mapped[str]
    reason: Mapped[str]
    extent: Mapped[str]
    cycle: Mapped[int]
    again: Mapped[list[str]] = mapped_column(JSON)
    lacking: Mapped[list[str]] = mapped_column(JSON)
    by: Mapped[str]
    at: Mapped[str]
    received: Mapped[int]
    shown: Mapped[dict[str, Any]] = mapped_column(JSON)


Index("ix_decision_state_number", Decision.state, Decision.number)
Index("ix_decision_job_piece", Decision.job, Decision.piece)


class PieceState(Base):
    """Where each step of a piece stands, so that what waits for what is told without reading every record again.

    states: by code of step: its state, the parties that have still to sign, and those of them that hold.
    """

    __tablename__ = "piece_state"

    job: Mapped[str] = mapped_column(primary_key=True)
    piece: Mapped[str] = mapped_column(primary_key=True)
    states: Mapped[dict[str, Any]] = mapped_column(JSON)
    scrapped: Mapped[bool]


class Released(Base):
    """A step that is released, and when the signature came in that released it. Unix seconds."""

    __tablename__ = "released"

    job: Mapped[str] = mapped_column(primary_key=True)
    piece: Mapped[str] = mapped_column(primary_key=True)
    step: Mapped[str] = mapped_column(primary_key=True)
    received: Mapped[int] = mapped_column(index=True)


class ListLine(Base):
    """A line of one of the lists that the review begins with. since: Unix second at which it came onto the list.

    record: of a report; '' elsewhere.
    """

    __tablename__ = "list_line"

    name: Mapped[str] = mapped_column(primary_key=True)
    job: Mapped[str] = mapped_column(primary_key=True)
    piece: Mapped[str] = mapped_column(primary_key=True)
    step: Mapped[str] = mapped_column(primary_key=True)
    record: Mapped[str] = mapped_column(primary_key=True, default="")
    since: Mapped[int]
    shown: Mapped[dict[str, Any]] = mapped_column(JSON)


Index("ix_list_line_name_since", ListLine.name, ListLine.since)
Index("ix_list_line_job_piece", ListLine.job, ListLine.piece)
