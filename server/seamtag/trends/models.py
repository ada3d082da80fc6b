from sqlalchemy import JSON, Float, Index
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Measured(Base):
    """A value as the trends need it: a reading, or what was worked out from readings; derived as the flags are.

    id: the record's; of a value worked out, one made of its place. record, number: of the reading, or of the newest one
    it was worked out from. plan: code of the plan. kind: of the piece. procedure: of the welds on the piece. value,
    lower, upper: in the item's uom, for charts only; judged values are texts elsewhere. standing: as core says it.
    """

    __tablename__ = "measured"

    id: Mapped[str] = mapped_column(primary_key=True)
    record: Mapped[str]
    number: Mapped[int]
    job: Mapped[str]
    piece: Mapped[str]
    mark: Mapped[str]
    kind: Mapped[str]
    plan: Mapped[str]
    step: Mapped[str]
    item: Mapped[str]
    station: Mapped[str]
    by: Mapped[str]
    gauge: Mapped[str]
    procedure: Mapped[str]
    at: Mapped[str]
    received: Mapped[int]
    value: Mapped[float] = mapped_column(Float)
    lower: Mapped[float | None] = mapped_column(Float)
    upper: Mapped[float | None] = mapped_column(Float)
    uom: Mapped[str]
    verdict: Mapped[str]
    standing: Mapped[str]


Index("ix_measured_series", Measured.plan, Measured.step, Measured.item, Measured.number)
Index("ix_measured_job_piece", Measured.job, Measured.piece)
Index("ix_measured_received", Measured.received)


class Series(Base):
    """An item of a plan that was measured: what it is called, and how many of its values are here.

    last: Unix second at which the newest came in.
    """

    __tablename__ = "series"

    plan: Mapped[str] = mapped_column(primary_key=True)
    step: Mapped[str] = mapped_column(primary_key=True)
    item: Mapped[str] = mapped_column(primary_key=True)
    step_number: Mapped[str]
    step_name: Mapped[str]
    name: Mapped[str]
    uom: Mapped[str]
    count: Mapped[int]
    last: Mapped[int]


class Watched(Base):
    """The rules by which an item is watched, as the shop has set them."""

    __tablename__ = "watched"

    plan: Mapped[str] = mapped_column(primary_key=True)
    step: Mapped[str] = mapped_column(primary_key=True)
    item: Mapped[str] = mapped_column(primary_key=True)
    rules: Mapped[list[str]] = mapped_column(JSON)
