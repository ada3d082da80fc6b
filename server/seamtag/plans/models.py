from typing import Any

from sqlalchemy import JSON, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class PlanRevision(Base):
    """A published revision, known by the SHA-256 of its document; it never changes."""

    __tablename__ = "plan_revision"
    __table_args__ = (UniqueConstraint("code", "revision"),)

    hash: Mapped[str] = mapped_column(primary_key=True)
    code: Mapped[str]
    revision: Mapped[int]
    title: Mapped[str]
    document: Mapped[dict[str, Any]] = mapped_column(JSON)
