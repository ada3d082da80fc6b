from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Gauge(Base):
    """uncertainty: expanded, k = 2, in uom, as text; dates as ISO text; due: the last day it may be used."""

    __tablename__ = "gauge"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    name: Mapped[str]
    uom: Mapped[str]
    uncertainty: Mapped[str | None]
    certificate: Mapped[str] = mapped_column(default="")
    calibrated: Mapped[str | None]
    due: Mapped[str | None]
