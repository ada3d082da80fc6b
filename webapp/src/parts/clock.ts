/** Places on a clock's face, by the hours they are named after. */
import type { Stations } from "../core/job";

const HOUR = /^(1[0-2]|[1-9])(?::([0-5]\d))?(?: o'clock)?$/;
const ROUND = 360;
/** Nearer to each other, in degrees, no two targets fit on a face that a phone has room for. */
const NEAREST = 30;

/** A place by its name, and where it stands in degrees from 12 clockwise. */
export type OnFace = readonly [name: string, degrees: number];

/** Where a place stands on the face; null where its name is no hour. */
export function degreesOf(name: string): number | null {
  const found = HOUR.exec(name.trim());
  return found ? ((Number(found[1]) % 12) + Number(found[2] ?? 0) / 60) * 30 : null;
}

/** The places of a clock; null where they are none, one of them is no hour, or two of them are too near to each other. */
export function faceOf(stations: Stations | null | undefined): OnFace[] | null {
  if (stations?.style !== "clock") return null;
  const places = (stations.names ?? []).map((name) => [name, degreesOf(name)] as const);
  const hours = places.filter((place): place is OnFace => place[1] !== null);
  return hours.length > 0 && hours.length === places.length && nearest(hours) >= NEAREST ? hours : null;
}

/** How far the two places that are nearest to each other stand apart, in degrees. */
export function nearest(face: readonly OnFace[]): number {
  const all = face.map(([, degrees]) => degrees).sort((a, b) => a - b);
  const next = [...all.slice(1), (all[0] ?? 0) + ROUND];
  return Math.min(...all.map((degrees, place) => (next[place] ?? ROUND) - degrees));
}
