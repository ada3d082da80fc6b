/** How often and how much is sent: settings of this phone's store, with what holds where nothing is set. */
import { setting } from "../store/db";

export interface Times {
  /** Milliseconds between two turns while the server answers. */
  shortest: number;
  /** Milliseconds between two turns when it has not answered for long. */
  longest: number;
  /** Most records of one push. */
  batch: number;
}

const DEFAULTS: Times = { shortest: 4_000, longest: 60_000, batch: 100 };

/** What is set under 'sync', each value that is none of its kind replaced by the default. */
export async function times(): Promise<Times> {
  const set = (await setting<Partial<Times>>("sync").catch(() => undefined)) ?? {};
  const given = (name: keyof Times) => {
    const value = set[name];
    return typeof value === "number" && Number.isFinite(value) && value >= 1 ? value : DEFAULTS[name];
  };
  const shortest = given("shortest");
  return { shortest, longest: Math.max(shortest, given("longest")), batch: Math.floor(given("batch")) };
}

/** The pause before the next turn: around its length, so that phones that lost the server together come back apart. */
export function jittered(pause: number, chance = Math.random()): number {
  return pause * (0.75 + chance / 2);
}

/** How long something that the server would not have is left alone before it is sent again, in milliseconds. */
const LEFT_ALONE = 600_000;

export function isLeftAlone(tried = 0): boolean {
  return Date.now() - tried < LEFT_ALONE;
}
