/** A blurred picture made sharp again, as far as it goes: each pixel away from the mean of those around it. */

/** Pixels to each side: as far as a hand shakes or a lens misses. */
const REACH = 5;
const MANY = 2 * REACH + 1;
const FORCE = 4;

/** The brightness of each pixel, up to 1024 times 255. */
function greyOf({ data }: ImageData): Int32Array {
  const grey = new Int32Array(data.length / 4);
  for (let place = 0, at = 0; place < grey.length; place += 1, at += 4) {
    grey[place] = (data[at] ?? 0) * 306 + (data[at + 1] ?? 0) * 601 + (data[at + 2] ?? 0) * 117;
  }
  return grey;
}

/** Add a row of a picture to the sums of its columns, or take it away; beyond the edge the last row goes on. */
function sum(sums: Float64Array, grey: Int32Array, row: number, height: number, sign: 1 | -1): void {
  const width = sums.length;
  const start = Math.min(Math.max(row, 0), height - 1) * width;
  for (let column = 0; column < width; column += 1)
    sums[column] = (sums[column] ?? 0) + sign * (grey[start + column] ?? 0);
}

/** The same picture in grey, sharpened, in the same memory. */
export function sharpened(picture: ImageData): ImageData {
  const { width, height, data } = picture;
  const grey = greyOf(picture);
  const columns = new Float64Array(width);
  for (let row = -REACH; row <= REACH; row += 1) sum(columns, grey, row, height, 1);
  const at = (column: number) => columns[Math.min(Math.max(column, 0), width - 1)] ?? 0;
  for (let row = 0; row < height; row += 1) {
    let around = 0;
    for (let column = -REACH; column <= REACH; column += 1) around += at(column);
    for (let column = 0; column < width; column += 1) {
      const place = row * width + column;
      const own = grey[place] ?? 0;
      const value = (own + FORCE * (own - around / (MANY * MANY))) / 1024;
      data[place * 4] = value;
      data[place * 4 + 1] = value;
      data[place * 4 + 2] = value;
      around += at(column + REACH + 1) - at(column - REACH);
    }
    sum(columns, grey, row + REACH + 1, height, 1);
    sum(columns, grey, row - REACH, height, -1);
  }
  return picture;
}
