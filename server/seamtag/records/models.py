from sqlalchemy import BigInteger, Float, ForeignKey, Index, Text
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Record(Base):
    """What can be read off a signed record, and its verdict. The bytes themselves are the chain's entry `number`.

    digest: SHA-256 of header.payload, which the key's next record names as `prev`. value: exact, as text;
    value_float: for charts and sorting only. waiting: it names a sign-off that is not here yet. link: how it follows
    its key's last record, see records.keychain. clock: by how many seconds at least the phone's clock was fast, below
    zero slow; 0 where nothing shows that it was wrong.
    """

    __tablename__ = "record"
    __table_args__ = (Index("ix_record_job_piece_step_item", "job", "piece", "step", "item"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    number: Mapped[int] = mapped_column(ForeignKey("entry.number"), unique=True)
    type: Mapped[str]
    job: Mapped[str]
    piece: Mapped[str]
    step: Mapped[str]
    item: Mapped[str]
    station: Mapped[str]
    by: Mapped[str] = mapped_column(index=True)
    device: Mapped[str] = mapped_column(index=True)
    kid: Mapped[str]
    seq: Mapped[int] = mapped_column(BigInteger)
    prev: Mapped[str]
    digest: Mapped[str] = mapped_column(index=True)
    at: Mapped[str]
    received: Mapped[int] = mapped_column(index=True)
    role: Mapped[str]
    verdict: Mapped[str]
    reason: Mapped[str]
    value: Mapped[str | None]
    value_float: Mapped[float | None] = mapped_column(Float)
    margin: Mapped[str | None]
    waiting: Mapped[bool] = mapped_column(default=False)
    link: Mapped[str] = mapped_column(default="", server_default="")
    clock: Mapped[int] = mapped_column(default=0, server_default="0")


Index("ix_record_kid_seq", Record.kid, Record.seq)


class Refusal(Base):
    """A verified record that was not taken in, with the reason; kept, listed, and part of verify and the book.

    adopted: Unix second at which it was taken in after all; None while it is not.
    """

    __tablename__ = "refusal"

    digest: Mapped[str] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(index=True)
    kid: Mapped[str]
    reason: Mapped[str]
    received: Mapped[int]
    text: Mapped[str] = mapped_column(Text)
    adopted: Mapped[int | None]
