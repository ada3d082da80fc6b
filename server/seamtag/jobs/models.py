from typing import Any

from sqlalchemy import JSON, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Job(Base):
    __tablename__ = "job"

    id: Mapped[str] = mapped_column(primary_key=True)
    title: Mapped[str]
    open: Mapped[bool] = mapped_column(default=True)


class Basis(Base):
    """What a job is judged by from an entry of the chain on: plan revision, numbered figures and drawing revisions."""

    __tablename__ = "basis"
    __table_args__ = (UniqueConstraint("job", "plan", "figures"),)

    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    job: Mapped[str] = mapped_column(ForeignKey("job.id"), index=True)
    plan: Mapped[str] = mapped_column(ForeignKey("plan_revision.hash"))
    figures: Mapped[int]
    values: Mapped[dict[str, str]] = mapped_column(JSON)
    drawings: Mapped[dict[str, str]] = mapped_column(JSON)
    reason: Mapped[str] = mapped_column(default="")


class Piece(Base):
    """place: where its tag sits; sheet: the drawing it is on; remade: the piece made in its place, once scrapped."""

    __tablename__ = "piece"
    __table_args__ = (UniqueConstraint("job", "mark"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    job: Mapped[str] = mapped_column(ForeignKey("job.id"), index=True)
    position: Mapped[int]
    mark: Mapped[str]
    kind: Mapped[str]
    name: Mapped[str]
    part_of: Mapped[list[str]] = mapped_column(JSON)
    joins: Mapped[list[str]] = mapped_column(JSON)
    figures: Mapped[dict[str, str]] = mapped_column(JSON)
    sheet: Mapped[str] = mapped_column(default="")
    place: Mapped[str] = mapped_column(default="")
    remade: Mapped[str] = mapped_column(default="", server_default="")

    def as_data(self) -> dict[str, Any]:
        """The piece as core and feed carry it."""
        names = ("id", "mark", "kind", "name", "part_of", "joins", "figures", "sheet", "place", "remade")
        return {name: getattr(self, name) for name in names}
