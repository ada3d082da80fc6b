from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Photo(Base):
    """A photo by its SHA-256. named: a record taken in names it; record: the first that does. stored: its bytes are
    here.

    shown: whether it can be decoded as a picture; '' until it is here, then 'yes' or the reason why not.
    """

    __tablename__ = "photo"

    sha256: Mapped[str] = mapped_column(primary_key=True)
    named: Mapped[bool] = mapped_column(default=False)
    stored: Mapped[bool] = mapped_column(default=False)
    bytes: Mapped[int] = mapped_column(default=0)
    shown: Mapped[str] = mapped_column(default="")
    record: Mapped[str] = mapped_column(default="", server_default="", index=True)
