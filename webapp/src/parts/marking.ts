/** The geometry of marks over a photo: places in ten-thousandths of its width and height, drawings in its pixels. */
import { FAR_EDGE, type PhotoMark } from "../core/records";

export interface Place {
  x: number;
  y: number;
}

export interface Size {
  width: number;
  height: number;
}

interface Box extends Size {
  left: number;
  top: number;
}

/** Nearer than this to where the finger came down is a tap, and too short for an arrow. */
const NEAR = 250;
const RING = 800;
const LEAST_RING = 200;
const GROWTH = 1.3;

/** Where in the photo a finger is, by the photo's box on the screen; never outside the photo. */
export function placeIn(box: Box, x: number, y: number): Place {
  return { x: inside(((x - box.left) / box.width) * FAR_EDGE), y: inside(((y - box.top) / box.height) * FAR_EDGE) };
}

function inside(part: number): number {
  return Math.min(FAR_EDGE, Math.max(0, Math.round(part)));
}

export function isNear(one: Place, other: Place): boolean {
  return Math.hypot(one.x - other.x, one.y - other.y) < NEAR;
}

/** An arrow from where it begins to what it points to. */
export function arrow(from: Place, to: Place): PhotoMark {
  return { shape: "arrow", x1: from.x, y1: from.y, x2: to.x, y2: to.y };
}

/** A ring round a place, through another. */
export function ring(centre: Place, through: Place): PhotoMark {
  return { shape: "ring", x1: centre.x, y1: centre.y, x2: through.x, y2: through.y };
}

/** A ring of the size it has at first. */
export function ringAt(centre: Place): PhotoMark {
  return ofRadius(centre, RING);
}

/** A ring made larger or smaller by one press of a key; what is no ring stays as it is. */
export function resized(mark: PhotoMark, larger: boolean, { width, height }: Size): PhotoMark {
  if (mark.shape !== "ring") return mark;
  const across = radius(mark, { width, height }) / width;
  return ofRadius({ x: mark.x1, y: mark.y1 }, across * FAR_EDGE * (larger ? GROWTH : 1 / GROWTH));
}

/** across: in ten-thousandths of the width; the point it goes through lies on the side where there is more room. */
function ofRadius(centre: Place, across: number): PhotoMark {
  const side = centre.x > FAR_EDGE / 2 ? -1 : 1;
  return ring(centre, { x: inside(centre.x + side * Math.max(LEAST_RING, across)), y: centre.y });
}

/** A mark's two places in the photo's pixels. */
export function inPixels({ x1, y1, x2, y2 }: PhotoMark, { width, height }: Size): [Place, Place] {
  const [across, down] = [width / FAR_EDGE, height / FAR_EDGE];
  return [
    { x: x1 * across, y: y1 * down },
    { x: x2 * across, y: y2 * down },
  ];
}

/** The radius of a ring, in the photo's pixels: it is round in the picture, whatever the picture's shape. */
export function radius(mark: PhotoMark, size: Size): number {
  const [centre, through] = inPixels(mark, size);
  return Math.hypot(through.x - centre.x, through.y - centre.y);
}

/** How thick marks are drawn over a photo, in its pixels. */
export function thickness({ width, height }: Size): number {
  return Math.max(width, height) / 110;
}

/** The outline of an arrow with its head, as the path of an SVG in the photo's pixels. */
export function arrowPath(mark: PhotoMark, size: Size): string {
  const [from, to] = inPixels(mark, size);
  const turn = Math.atan2(to.y - from.y, to.x - from.x);
  const long = thickness(size) * 5;
  const barb = (side: number) =>
    `${whole(to.x - long * Math.cos(turn + side))} ${whole(to.y - long * Math.sin(turn + side))}`;
  const tip = `${whole(to.x)} ${whole(to.y)}`;
  return `M${whole(from.x)} ${whole(from.y)}L${tip}M${barb(0.5)}L${tip}L${barb(-0.5)}`;
}

function whole(value: number): number {
  return Math.round(value);
}
