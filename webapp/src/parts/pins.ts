/** Pins on a drawing: in which order they are read, and which can be told apart at the size it is shown at. */
import type { Pin } from "../store/drawings";

/** Pins are placed in ten-thousandths of the picture's width and height. */
export const ACROSS = 10_000;
/** Of a pin's target on the screen, in CSS pixels: no finger hits less. */
export const TARGET = 48;
/** As large as a row of marks that a reader takes for one line. */
const BAND = ACROSS / 12;

/** Line by line from the top, from the left in each. */
export function inReadingOrder<P extends Pin>(pins: readonly P[]): P[] {
  const lines: P[][] = [];
  for (const pin of [...pins].sort((a, b) => a.y - b.y)) {
    const line = lines.at(-1);
    if (line?.[0] && pin.y - line[0].y <= BAND) line.push(pin);
    else lines.push([pin]);
  }
  return lines.flatMap((line) => line.sort((a, b) => a.x - b.x));
}

/** The pins, most wanted first, that can be hit without another; the rest have to wait until it is enlarged. */
export function apart<P extends Pin>(pins: readonly P[], width: number, height: number): Set<P> {
  const free = new Set<P>();
  for (const pin of pins) {
    const isHit = (other: P) =>
      Math.abs(pin.x - other.x) * width < TARGET * ACROSS && Math.abs(pin.y - other.y) * height < TARGET * ACROSS;
    if (![...free].some(isHit)) free.add(pin);
  }
  return free;
}

/** A pin moved by hundredths of a percent, inside the picture. */
export function moved<P extends Pin>(pin: P, x: number, y: number): P {
  const inside = (value: number) => Math.min(ACROSS, Math.max(0, Math.round(value)));
  return { ...pin, x: inside(pin.x + x), y: inside(pin.y + y) };
}

/** Where a pin lies on its picture, as CSS; never so near to an edge that it is cut off. */
export function onPaper({ x, y }: { x: number; y: number }): { left: string; top: string } {
  const within = (part: number) => `clamp(${TARGET / 2}px, ${part / 100}%, calc(100% - ${TARGET / 2}px))`;
  return { left: within(x), top: within(y) };
}
