from sqlalchemy import Float, Index
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class FlagRow(Base):
    """A flag as core works it out, kept for the review; derived anew whenever a piece's records change.

    severity: the kind's rank less how far past the limit, so that the worst sorts first. day: that of the record.
    """

    __tablename__ = "flag"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    state: Mapped[str]
    job: Mapped[str]
    piece: Mapped[str] = mapped_column(index=True)
    step: Mapped[str]
    item: Mapped[str]
    station: Mapped[str]
    record: Mapped[str]
    number: Mapped[int]
    disposition: Mapped[str]
    reason: Mapped[str]
    past: Mapped[float | None] = mapped_column(Float)
    rank: Mapped[int]


Index("ix_flag_state_rank_past", FlagRow.state, FlagRow.rank, FlagRow.past)
