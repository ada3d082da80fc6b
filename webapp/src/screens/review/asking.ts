/** What the review's pages ask of the server, and how they stay true while records arrive. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { ApiError } from "../../api/client";
import type { components } from "../../api/schema";
import { asleep } from "../../state";
import { changes } from "../../store/jobs";
import { callSignedIn } from "../../sync/loop";
import { type Asked, query } from "./choosing-day";
import { type Answer, keepAnswer, keptAnswer, newestIs, whoAsks } from "./heard-before";

type Schemas = components["schemas"];
export type Review = Schemas["Review"];
export type Flag = Schemas["Flag"];
export type OpenedFlag = Schemas["OpenedFlag"];
export type Line = Schemas["WaitingLine"];
export type Decided = Schemas["Decision"];
export type Spot = Schemas["Spot"];
export type Lists = Review["lists"];

/** A little less than the two seconds within which a record shows. */
const EVERY = 1_700;
const AGAIN = 4_000;
const REFUSED = 403;

/** Why something cannot be had. status: of the server's answer, 0 where there was none. */
export interface Failure {
  readonly says: string;
  readonly status: number;
}

export interface Head {
  /** Number of the server's newest entry; null until it was heard. */
  readonly number: number | null;
  /** Why it cannot be had; null where it can. */
  readonly failure: Failure | null;
}

function failureOf(error: Error): Failure {
  return { says: error.message, status: error instanceof ApiError ? error.status : 0 };
}

/** The server's newest entry, asked for again and again while the page is seen, and as soon as something was sent. */
export function useHead(): Head {
  const [head, setHead] = useState<Head>({ number: null, failure: null });
  useEffect(() => {
    let [live, asking] = [true, false];
    const told = (number: number) => {
      newestIs(number);
      if (live) setHead((was) => (was.number === number && !was.failure ? was : { number, failure: null }));
    };
    const failed = ({ says, status }: Failure) =>
      live && setHead((was) => (was.failure?.says === says ? was : { ...was, failure: { says, status } }));
    const ask = async () => {
      if (asking || asleep.value || document.visibilityState !== "visible") return;
      asking = true;
      await callSignedIn<{ number: number }>("/head").then(
        ({ number }) => told(number),
        (error: Error) => failed(failureOf(error)),
      );
      asking = false;
    };
    void ask();
    const timer = setInterval(() => void ask(), EVERY);
    document.addEventListener("visibilitychange", ask);
    const stop = changes.subscribe(() => void ask());
    return () => {
      live = false;
      clearInterval(timer);
      document.removeEventListener("visibilitychange", ask);
      stop();
    };
  }, []);
  return head;
}

/** Why an answer is not the one that the server would give now. heard: when it was, in milliseconds; 0 for never. */
export interface Fault extends Failure {
  readonly heard: number;
  /** Whether this is not for who is here. */
  readonly refused: boolean;
}

export interface Live<T> {
  readonly found: T | undefined;
  /** What `found` is the answer to: for a moment after another path is asked for, the one before. */
  readonly path: string;
  readonly fault: Fault | null;
}

/**
 * The answer of a route, asked for anew when the path or the server's newest entry is another; the last one stays.
 * What was heard before is there at once: where it is still as the server has it, and where the server is away.
 */
export function useLive<T>(path: string, head: Head, also: unknown = ""): Live<T> {
  const [live, setLive] = useState<Answer<T>>(() => ({ path, found: undefined, heard: 0, number: null }));
  const [failure, setFailure] = useState<(Failure & { path: string }) | null>(null);
  const [retries, setRetries] = useState(0);
  useLayoutEffect(() => {
    const { number } = head;
    if (number === null) return;
    let [wanted, timer] = [true, 0];
    const asked = whoAsks();
    callSignedIn<T>(path).then(
      (found) => {
        const answer = keepAnswer({ path, found, heard: Date.now(), number }, asked);
        if (!wanted) return;
        setLive(answer);
        setFailure(null);
      },
      (error: Error) => {
        if (!wanted) return;
        const failed = failureOf(error);
        setFailure({ ...failed, path });
        if (failed.status === REFUSED) return;
        timer = setTimeout(() => setRetries((count) => count + 1), AGAIN) as unknown as number;
      },
    );
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [path, head.number, retries, also]);
  const failed = head.failure ?? (failure?.path === path ? failure : null);
  const last = useRef(live);
  const own = live.path === path && live.heard > 0 ? live : undefined;
  last.current = own ?? keptAnswer<T>(path, failed !== null) ?? last.current;
  const { found, path: answered, heard } = last.current;
  const fault = failed && { ...failed, heard, refused: failed.status === REFUSED };
  return { found, path: answered, fault };
}

/** A day with its open flags: the answer that the day's own page begins with. */
export function useDay({ day, shift }: Asked, head: Head): Live<Review> {
  return useLive<Review>(`/review?${query({ day, shift, state: "open" })}`, head);
}

/** Opened flags of the newest entry, so that the next one is there when it is come to. */
let opened: { number: number | null; flags: Map<string, Promise<OpenedFlag>> } = { number: null, flags: new Map() };

/** One flag opened. number: of the server's newest entry. */
export function openFlag(id: string, number: number | null): Promise<OpenedFlag> {
  if (opened.number !== number) opened = { number, flags: new Map() };
  const kept = opened.flags;
  const asked = kept.get(id) ?? callSignedIn<OpenedFlag>(`/flags/${id}`);
  kept.set(id, asked);
  asked.catch(() => kept.delete(id));
  return asked;
}
