from typing import Any

from sqlalchemy import JSON, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Drawing(Base):
    """A sheet of a job. width, height: of its picture in pixels. pins: piece, and x, y in ten-thousandths of these."""

    __tablename__ = "drawing"

    id: Mapped[str] = mapped_column(primary_key=True)
    job: Mapped[str] = mapped_column(ForeignKey("job.id"), index=True)
    sheet: Mapped[str]
    revision: Mapped[str]
    title: Mapped[str]
    sha256: Mapped[str]
    media_type: Mapped[str]
    width: Mapped[int]
    height: Mapped[int]
    pins: Mapped[list[dict[str, Any]]] = mapped_column(JSON)

    def as_data(self) -> dict[str, Any]:
        """The drawing as chain and feed carry it."""
        names = ("id", "sheet", "revision", "title", "sha256", "media_type", "width", "height", "pins")
        return {name: getattr(self, name) for name in names}
