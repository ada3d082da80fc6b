"""A PostgreSQL cluster of the test run's own, from Debian's package, on a Unix socket in a temporary folder."""

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

NEVER = "PostgreSQL's server is not installed here (Debian: apt-get install postgresql); these tests are left out."


def programs() -> Path | None:
    """The folder of initdb and pg_ctl; None where PostgreSQL's server is not installed."""
    config = shutil.which("pg_config")
    folders = []
    if config:
        named = subprocess.run([config, "--bindir"], capture_output=True, text=True, check=True)
        folders = [Path(named.stdout.strip())]
    folders += sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
    return next((folder for folder in folders if (folder / "initdb").exists()), None)


class Cluster:
    """Started at once; `url` of a new database that is a copy of another. As root it runs as Debian's postgres user."""

    def __init__(self) -> None:
        self.programs = programs()
        self.folder = Path(tempfile.mkdtemp(prefix="seamtag-postgres-"))
        self.count = 0
        self.user = "postgres"
        if os.geteuid() == 0:
            shutil.chown(self.folder, "postgres", "postgres")
        self.run("initdb", "-D", self.data, "-U", self.user, "-A", "trust", "-E", "UTF8", "--no-sync",
                 "--locale=C.UTF-8")  # fmt: skip
        options = f"-k {self.folder} -c listen_addresses='' -c fsync=off -c max_connections=60"
        self.run("pg_ctl", "-D", self.data, "-o", options, "-l", str(self.folder / "log"), "-w", "start")

    @property
    def data(self) -> str:
        return str(self.folder / "data")

    def run(self, program: str, *words: str) -> None:
        command = [str((self.programs or Path()) / program), *words]
        if os.geteuid() == 0:
            command = ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups", *command]
        # pg_ctl leaves the server behind with our own output open, so that goes to nobody
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120,
                       cwd=self.folder)  # fmt: skip

    def url(self, name: str) -> str:
        return f"postgresql+psycopg://{self.user}@/{name}?host={self.folder}"

    def new(self, template: str = "template0") -> str:
        """The URL of a new database."""
        self.count += 1
        name = f"seamtag_{self.count}"
        self.run("createdb", "-h", str(self.folder), "-U", self.user, "-T", template, name)
        return self.url(name)

    def stop(self) -> None:
        self.run("pg_ctl", "-D", self.data, "-m", "immediate", "-w", "stop")
        shutil.rmtree(self.folder, ignore_errors=True)
