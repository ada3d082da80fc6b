/** Push: nothing leaves the outbox but on the server's word for that very record. */
import { ApiError, call, type PushAnswer } from "../api/client";
import { utf8 } from "../store/bytes";
import { type StoredRecord, setting, withStore, writing } from "../store/db";
import { deviceId } from "../store/keys";

const MOST = 100;
const IN_FLIGHT = 2;

/** Send what waits, in batches; whether anything was sent. */
export async function push(): Promise<boolean> {
  const rows = await withStore((db) => db.getAllFromIndex("outbox", "order"));
  const found = await withStore((db) => Promise.all(rows.map((row) => db.get("records", row.id))));
  const records = found.filter((record) => record !== undefined);
  let left = records.length;
  const batches: StoredRecord[][] = [];
  for (let at = 0; at < records.length; at += MOST) batches.push(records.slice(at, at + MOST));
  const sending = async () => {
    for (let batch = batches.shift(); batch; batch = batches.shift()) {
      left -= batch.length;
      await sendBatch(batch, left);
    }
  };
  await Promise.all(Array.from({ length: IN_FLIGHT }, sending));
  return records.length > 0;
}

/** Send one batch; where it is too large, its halves. */
async function sendBatch(batch: StoredRecord[], left: number): Promise<void> {
  const body = { device: await deviceId(), waiting: left, records: batch.map((record) => record.text) };
  let answer: PushAnswer;
  try {
    answer = await call<PushAnswer>("/records", {
      method: "POST",
      headers: { "Content-Type": "application/json", "Content-Encoding": "gzip" },
      body: await zipped(JSON.stringify(body)),
    });
  } catch (error) {
    if (!(error instanceof ApiError) || error.status !== 413 || batch.length < 2) throw error;
    const middle = Math.ceil(batch.length / 2);
    await sendBatch(batch.slice(0, middle), left + batch.length - middle);
    await sendBatch(batch.slice(middle), left);
    return;
  }
  if (answer.outcomes.length !== batch.length) throw new ApiError(0, "The server's answer does not fit what was sent.");
  await settle(batch, answer);
}

async function zipped(text: string): Promise<ArrayBuffer> {
  const stream = new Blob([utf8(text)]).stream().pipeThrough(new CompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

/** Write down the server's word on each record of a batch. */
async function settle(batch: StoredRecord[], answer: PushAnswer): Promise<void> {
  const newest = (await setting<{ number: number }>("head"))?.number ?? 0;
  await writing(["records", "outbox", "settings"], async (tx) => {
    for (const [place, record] of batch.entries()) {
      const outcome = answer.outcomes[place];
      if (outcome?.id !== record.id) continue;
      if (outcome.outcome === "unreadable") continue;
      const received = outcome.outcome === "taken in";
      await tx.objectStore("records").put({
        ...record,
        state: received ? "received" : "not taken in",
        number: outcome.number,
        verdict: outcome.verdict,
        reason: outcome.reason,
      });
      await tx.objectStore("outbox").delete(record.id);
    }
    if (answer.head.number >= newest) await tx.objectStore("settings").put(answer.head, "head");
  });
  const unreadable = answer.outcomes.find((one) => one.outcome === "unreadable");
  if (unreadable) throw new ApiError(0, `The server cannot believe a record: ${unreadable.reason}.`);
}
