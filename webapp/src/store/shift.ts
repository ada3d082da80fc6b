/** What counts for one shift: cautions that were read, and the word by which somebody goes on past a hold. */
import { signal } from "@preact/signals";
import type { Step } from "../core/job";
import type { Blocked } from "../core/progress";
import { setSetting, setting } from "./db";

/** How long what was read counts as read, in milliseconds. */
const SHIFT = 10 * 3_600_000;

type Read = Record<string, number>;

/** A step's cautions by their own words: where the plan changes them, they are read again. */
function nameOf(step: Step): string {
  return [step.code, ...(step.cautions ?? [])].join("\n");
}

/** Whether a person has read a step's cautions within the shift; so too where there are none. */
export async function hasRead(person: string, step: Step, now = Date.now()): Promise<boolean> {
  if (!step.cautions?.length) return true;
  const read = (await setting<Read>(`cautions ${person}`)) ?? {};
  return isFresh(read[nameOf(step)], now);
}

/** Keep that a person has read a step's cautions just now; what is older than a shift is dropped. */
export async function noteRead(person: string, step: Step, now = Date.now()): Promise<void> {
  const read = (await setting<Read>(`cautions ${person}`)) ?? {};
  const fresh = Object.entries(read).filter(([, at]) => isFresh(at, now));
  await setSetting(`cautions ${person}`, { ...Object.fromEntries(fresh), [nameOf(step)]: now });
}

/** A clock that was put back makes nothing count for longer. */
function isFresh(at: number | undefined, now: number): boolean {
  return at !== undefined && at <= now && now - at < SHIFT;
}

/** Who was told to go on where, past which holds: until the app is closed. */
const told = signal<ReadonlySet<string>>(new Set());

function goingOn(person: string, piece: string, step: Step, blocked: readonly Blocked[]): string {
  return JSON.stringify([person, piece, step.code, blocked.map((one) => [one.piece, one.step, one.parties])]);
}

/** Whether a person was told to go on past these very holds; one that comes later stops them anew. */
export function wasTold(person: string, piece: string, step: Step, blocked: readonly Blocked[]): boolean {
  return told.value.has(goingOn(person, piece, step, blocked));
}

export function noteTold(person: string, piece: string, step: Step, blocked: readonly Blocked[]): void {
  told.value = new Set([...told.value, goingOn(person, piece, step, blocked)]);
}
