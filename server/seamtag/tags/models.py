from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Tag(Base):
    """A code once drawn belongs to one piece for good; retired ones are kept so that a scan can say so."""

    __tablename__ = "tag"

    code: Mapped[str] = mapped_column(primary_key=True)
    piece: Mapped[str] = mapped_column(ForeignKey("piece.id"), index=True)
    retired: Mapped[bool] = mapped_column(default=False)
