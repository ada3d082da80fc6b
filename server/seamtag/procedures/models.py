"""The shop's welding procedures."""

from typing import Any

from sqlalchemy import JSON
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Procedure(Base):
    """document: as core.procedures says, the newest entry's."""

    __tablename__ = "procedure"

    id: Mapped[str] = mapped_column(primary_key=True)
    document: Mapped[dict[str, Any]] = mapped_column(JSON)
