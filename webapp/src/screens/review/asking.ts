/** What the review's pages ask of the server, and how they stay true while records arrive. */
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import type { components } from "../../api/schema";
import { asleep } from "../../state";
import { changes } from "../../store/jobs";
import { callSignedIn } from "../../sync/loop";

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

export interface Head {
  /** Number of the server's newest entry; null until it was heard. */
  readonly number: number | null;
  /** Why it cannot be had; '' where it can. */
  readonly fault: string;
}

/** The server's newest entry, asked for again and again while the page is seen, and as soon as something was sent. */
export function useHead(): Head {
  const [head, setHead] = useState<Head>({ number: null, fault: "" });
  useEffect(() => {
    let [live, asking] = [true, false];
    const told = (next: Head) =>
      live && setHead((was) => (was.number === next.number && was.fault === next.fault ? was : next));
    const ask = async () => {
      if (asking || asleep.value || document.visibilityState !== "visible") return;
      asking = true;
      await callSignedIn<{ number: number }>("/head").then(
        ({ number }) => told({ number, fault: "" }),
        (error: Error) => live && setHead((was) => ({ ...was, fault: error.message })),
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

export interface Live<T> {
  readonly found: T | undefined;
  /** What `found` is the answer to: for a moment after another path is asked for, the one before. */
  readonly path: string;
  readonly fault: string;
}

/** The answer of a route, asked for anew when the path or the server's newest entry is another; the last one stays. */
export function useLive<T>(path: string, head: Head, also: unknown = ""): Live<T> {
  const [live, setLive] = useState<Live<T>>({ found: undefined, path, fault: "" });
  const [retries, setRetries] = useState(0);
  useLayoutEffect(() => {
    if (head.number === null) return;
    let [wanted, timer] = [true, 0];
    callSignedIn<T>(path).then(
      (found) => wanted && setLive({ found, path, fault: "" }),
      (error: Error) => {
        if (!wanted) return;
        setLive((was) => ({ ...was, fault: error.message }));
        timer = setTimeout(() => setRetries((count) => count + 1), AGAIN) as unknown as number;
      },
    );
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [path, head.number, retries, also]);
  return { ...live, fault: head.fault || live.fault };
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
