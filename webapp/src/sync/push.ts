/** Push: nothing leaves the outbox but on the server's word for that very record. */

import { ApiError, call, type PushAnswer } from "../api/client";
import { t } from "../language";
import { utf8 } from "../store/bytes";
import { type StoredRecord, type Writing, writing } from "../store/db";
import { deviceId } from "../store/keys";
import { countWaiting, type Unsent, unsent } from "../store/outbox";
import { HEARING, hear } from "./hearing";
import { isLeftAlone, times } from "./times";

type Outcome = PushAnswer["outcomes"][number];

const IN_FLIGHT = 2;

export interface Pushed {
  /** Whether the server answered. */
  heard: boolean;
  restored: boolean;
  /** The jobs of whose records the server has said something. */
  jobs: string[];
}

/**
 * Send what waits, in batches.
 *
 * What the server could not believe goes by itself and seldom, unless it is urgent: it must neither hold up the rest
 * nor count against this phone with each turn. The last batch goes when all others are answered, so that a phone which
 * says that nothing waits after it tells the truth.
 */
export async function push(urgent = false): Promise<Pushed> {
  const { batch } = await times();
  const all = await unsent();
  const doubted = all.filter(({ row }) => row.unreadable && (urgent || !isLeftAlone(row.tried)));
  const batches = [
    ...inBatches(doubted, batch),
    ...inBatches(
      all.filter(({ row }) => !row.unreadable),
      batch,
    ),
  ];
  const found: Pushed = { heard: false, restored: false, jobs: [] };
  let left = all.length;
  const sendAllBut = async (kept: number) => {
    while (batches.length > kept) {
      const next = batches.shift() ?? [];
      left -= next.length;
      const restored = await sendBatch(next, left);
      found.jobs.push(...next.map(({ job }) => job));
      found.heard = true;
      found.restored ||= restored;
    }
  };
  const sending = await Promise.allSettled(Array.from({ length: IN_FLIGHT }, () => sendAllBut(1)));
  for (const one of sending) if (one.status === "rejected") throw one.reason;
  await sendAllBut(0);
  return found;
}

function inBatches(rows: readonly Unsent[], most: number): StoredRecord[][] {
  const batches: StoredRecord[][] = [];
  for (let at = 0; at < rows.length; at += most) batches.push(rows.slice(at, at + most).map(({ record }) => record));
  return batches;
}

/** Send one batch; where it is too large, its halves. Whether the server was found to be restored. */
async function sendBatch(batch: StoredRecord[], left: number): Promise<boolean> {
  const body = { device: await deviceId(), waiting: left, records: batch.map((record) => record.text) };
  let answer: PushAnswer;
  try {
    answer = await call<PushAnswer>("/records", { method: "POST", ...(await packed(JSON.stringify(body))) });
  } catch (error) {
    if (!(error instanceof ApiError) || error.status !== 413) throw error;
    return sendHalves(batch, left, error.message);
  }
  if (answer.outcomes?.length !== batch.length) throw new ApiError(0, t("net-does-not-fit"));
  return settle(batch, answer);
}

async function sendHalves(batch: StoredRecord[], left: number, reason: string): Promise<boolean> {
  const [only] = batch;
  if (only && batch.length === 1) {
    await writing(["outbox"], (tx) => leaveAlone(tx, only.id, reason));
    return false;
  }
  const middle = Math.ceil(batch.length / 2);
  const first = await sendBatch(batch.slice(0, middle), left + batch.length - middle);
  return (await sendBatch(batch.slice(middle), left)) || first;
}

/** Gzipped, where the browser can: an older one sends it as it is. */
async function packed(text: string): Promise<Pick<RequestInit, "headers" | "body">> {
  const headers = { "Content-Type": "application/json" };
  if (typeof CompressionStream === "undefined") return { headers, body: text };
  const stream = new Blob([utf8(text)]).stream().pipeThrough(new CompressionStream("gzip"));
  return { headers: { ...headers, "Content-Encoding": "gzip" }, body: await new Response(stream).arrayBuffer() };
}

/** Write down the server's word on each record of a batch; whether the server was found to be restored. */
export async function settle(batch: readonly StoredRecord[], answer: PushAnswer): Promise<boolean> {
  const restored = await writing(HEARING, async (tx) => {
    const anew = await hear(tx, answer, false);
    for (const [place, record] of batch.entries()) {
      const outcome = answer.outcomes[place];
      if (outcome?.id === record.payload.id) await settleOne(tx, record, outcome, answer.epoch);
    }
    return anew;
  });
  await countWaiting();
  return restored;
}

async function settleOne(tx: Writing, record: StoredRecord, outcome: Outcome, epoch: string): Promise<void> {
  if (outcome.outcome === "unreadable") return leaveAlone(tx, record.id, outcome.reason);
  if (outcome.outcome !== "taken in" && outcome.outcome !== "not taken in") return;
  const now = (await tx.objectStore("records").get(record.id)) ?? record;
  const { number, verdict, reason } = outcome;
  await tx
    .objectStore("records")
    .put(
      outcome.outcome === "taken in"
        ? { ...now, state: "received", number, verdict, reason, received: now.received ?? Date.now(), epoch }
        : { ...now, state: "not taken in", number, verdict, reason },
    );
  await tx.objectStore("outbox").delete(record.id);
}

/** It stays, with the reason, and is left alone for a while. */
async function leaveAlone(tx: Writing, id: string, reason: string): Promise<void> {
  const row = await tx.objectStore("outbox").get(id);
  if (row) await tx.objectStore("outbox").put({ ...row, unreadable: reason, tried: Date.now() });
}
