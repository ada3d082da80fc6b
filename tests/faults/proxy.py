"""A bad network: a relay of HTTP calls that loses, cuts and delays them, by chance from a seed."""

import asyncio
import random
import threading
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass

END_OF_HEAD = b"\r\n\r\n"
MOST_HEAD = 65_536


@dataclass(frozen=True)
class Weather:
    """How often each thing happens to a call, from 0 to 1. longest: seconds that a stall takes at most."""

    request_lost: float = 0.3
    answer_lost: float = 0.3
    cut: float = 0.05
    stalled: float = 0.1
    longest: float = 0.5


class Proxy:
    """Listens on a port of its own at once, in a thread, and passes each call on to another port of this machine.

    counts: how many calls came, were passed on, and came to harm, and how.
    """

    def __init__(self, to_port: int, seed: int, weather: Weather | None = None) -> None:
        self.to_port, self.weather, self.dice = to_port, weather or Weather(), random.Random(seed)
        self.counts: Counter[str] = Counter()
        self.port = 0
        self.ready = threading.Event()
        self.loop = asyncio.new_event_loop()
        self.thread = threading.Thread(target=self.run, daemon=True)
        self.thread.start()
        self.ready.wait(10)

    def run(self) -> None:
        asyncio.set_event_loop(self.loop)
        self.loop.run_until_complete(self.serve())
        self.loop.close()

    async def serve(self) -> None:
        self.stopped = asyncio.Event()
        self.calls: set[asyncio.Task[None]] = set()
        server = await asyncio.start_server(self.connected, "127.0.0.1", 0, limit=MOST_HEAD)
        self.port = server.sockets[0].getsockname()[1]
        self.ready.set()
        await self.stopped.wait()
        server.close()
        for call in self.calls:
            call.cancel()
        await asyncio.gather(*self.calls, return_exceptions=True)

    def stop(self) -> None:
        self.loop.call_soon_threadsafe(self.stopped.set)
        self.thread.join(10)

    def connected(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        call = self.loop.create_task(self.relay(reader, writer))
        self.calls.add(call)
        call.add_done_callback(self.calls.discard)

    async def relay(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        """One call; the connection is closed after it, whatever became of it."""
        with suppress(OSError, asyncio.IncompleteReadError, asyncio.LimitOverrunError):
            await self.one_call(reader, writer)
        await ended(writer)

    async def one_call(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        head = await reader.readuntil(END_OF_HEAD)
        body = await reader.readexactly(length_of(head))
        self.counts["calls"] += 1
        await self.perhaps_stall()
        if self.happens("request lost", self.weather.request_lost):
            return
        _, to_server = connection = await asyncio.open_connection("127.0.0.1", self.to_port)
        try:
            answer = await self.answered(connection, head + body)
        finally:
            await ended(to_server)
        if not answer or self.happens("answer lost", self.weather.answer_lost):
            return
        await self.perhaps_stall()
        cut = self.happens("answer cut", self.weather.cut)
        writer.write(answer[: self.dice.randrange(len(answer))] if cut else answer)
        await writer.drain()

    async def answered(self, connection: tuple[asyncio.StreamReader, asyncio.StreamWriter], request: bytes) -> bytes:
        """The server's whole answer; b'' where it has given none, or was killed in the middle of it."""
        reader, writer = connection
        if self.happens("request cut", self.weather.cut):
            writer.write(request[: self.dice.randrange(len(request))])
            await writer.drain()
            return b""
        self.counts["passed on"] += 1
        writer.write(request)
        await writer.drain()
        return await reader.read(-1)

    def happens(self, what: str, how_often: float) -> bool:
        found = self.dice.random() < how_often
        self.counts[what] += found
        return found

    async def perhaps_stall(self) -> None:
        if self.happens("stalled", self.weather.stalled):
            await asyncio.sleep(self.dice.random() * self.weather.longest)


def length_of(head: bytes) -> int:
    for line in head.split(b"\r\n"):
        name, _, value = line.partition(b":")
        if name.strip().lower() == b"content-length":
            return int(value)
    return 0


async def ended(writer: asyncio.StreamWriter) -> None:
    writer.close()
    with suppress(OSError):
        await writer.wait_closed()
