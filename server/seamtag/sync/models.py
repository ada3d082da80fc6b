from sqlalchemy import Index, Text
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Entry(Base):
    """One link of the server's chain and one line of its change feed.

    scope: 'shop' or 'job:ID'. body: a record's compact JWS, or canonical JSON of master data. stamp: canonical JSON of
    what the server adds: when it came in, and for a record the role its maker held.
    """

    __tablename__ = "entry"

    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    hash: Mapped[str] = mapped_column(unique=True)
    kind: Mapped[str]
    scope: Mapped[str]
    body: Mapped[str] = mapped_column(Text)
    stamp: Mapped[str] = mapped_column(Text)


Index("ix_entry_scope_number", Entry.scope, Entry.number)
Index("ix_entry_kind_scope_number", Entry.kind, Entry.scope, Entry.number)


class Mark(Base):
    """Single values of the whole database: the feed's epoch, the shop's name."""

    __tablename__ = "mark"

    name: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


class Device(Base):
    """When a phone was last heard from, and what it said then: how many records were waiting, since when the oldest of
    them, and until when it can hold out before its storage may run short; 0 where it did not say. Unix seconds."""

    __tablename__ = "device"

    id: Mapped[str] = mapped_column(primary_key=True)
    last_heard: Mapped[int]
    waiting: Mapped[int]
    person: Mapped[str] = mapped_column(default="")
    oldest: Mapped[int] = mapped_column(default=0, server_default="0")
    holds_until: Mapped[int] = mapped_column(default=0, server_default="0")
