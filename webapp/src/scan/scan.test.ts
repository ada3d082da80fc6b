import { describe, expect, it } from "vitest";
import { readGauge } from "./gauge";
import { whyNoCode } from "./leading";
import { fitting } from "./marks";
import { sharpened } from "./sharpening";
import { idIn, meantBy } from "./stickers";
import { InSight, meant } from "./watching";

describe("stickers and boards", () => {
  it("reads the id of a gauge, in capitals, from any host", () => {
    expect(readGauge("HTTPS://TAGS.EXAMPLE/G/HL-07")).toBe("HL-07");
    expect(readGauge(" https://tags.example/g/hl-07 ")).toBe("HL-07");
    expect(readGauge("HTTPS://TAGS.EXAMPLE/G/%C3%9C%203%2FA%5FB")).toBe("Ü 3/A_B");
  });

  it.each([
    "HL-07",
    "HTTPS://TAGS.EXAMPLE/T/2Z6K3VD",
    "HTTPS://TAGS.EXAMPLE/J/26-104",
    "HTTPS://TAGS.EXAMPLE/G/",
    "HTTPS://TAGS.EXAMPLE/G/A/B",
    "HTTPS://TAGS.EXAMPLE/G/%C3",
  ])("takes %s for no gauge", (text) => expect(readGauge(text)).toBeNull());

  it("tells the host of a job's board", () => {
    expect(idIn("HTTPS://TAGS.EXAMPLE:8443/J/26-104", "j")).toEqual({ host: "tags.example:8443", id: "26-104" });
  });

  it("finds the id that was written in capitals", () => {
    expect(meantBy("26-104A", ["26-104", "26-104a"])).toBe("26-104a");
    expect(meantBy("A1", ["a1", "A1"])).toBe("A1");
    expect(meantBy("A2", ["a1"])).toBeNull();
  });
});

describe("what is no code", () => {
  it.each([
    ["U123456", "scan-odd-symbol", "U"],
    ["12*4567", "scan-odd-symbol", "*"],
    ["12 345", "scan-wrong-length", undefined],
    ["0000001", "scan-no-fit", undefined],
  ])("says of %s why", (typed, id, symbol) => {
    const says = whyNoCode(typed);
    expect([says.id, says.values?.symbol]).toEqual([id, symbol]);
  });
});

describe("marks", () => {
  const all = ["S-114", "S-14", "T-3", "S-1", "N-14", "TS-R"].map((mark) => ({ mark, beside: "seam 2207" }));
  const marks = (typed: string) => fitting(typed, all, (one) => [one.mark, one.beside]).map(({ mark }) => mark);

  it.each([
    ["14", ["S-14", "N-14", "S-114"]],
    ["s14", ["S-14"]],
    ["S 1", ["S-1", "S-114", "S-14"]],
    ["ts", ["TS-R"]],
    ["seam 14", ["S-114", "S-14", "N-14"]],
    ["nothing of it", []],
  ])("fit %s in the order of how well", (typed, found) => expect(marks(typed)).toEqual(found));

  it("are all there while nothing is typed", () => expect(marks(" ")).toHaveLength(6));
});

describe("what is in sight", () => {
  const at = (text: string, across: number, down = 0.5) => ({ text, across, down });

  it("is the one text of two symbols, and what lies inside the frame before what lies beside it", () => {
    expect(meant([at("a", 0.3), at("a", 0.7)], [1, 1])).toEqual(["a"]);
    expect(meant([at("a", 0.5), at("b", 0.95)], [1, 1])).toEqual(["a"]);
    expect(meant([at("a", 0.02)], [1, 1])).toEqual(["a"]);
    expect(meant([at("a", 0.4), at("b", 0.6)], [1, 1])).toEqual(["a", "b"]);
    expect(meant([at("a", 0.5), at("b", 0.5, 0.75)], [1, 1])).toEqual(["a", "b"]);
    expect(meant([at("a", 0.5), at("b", 0.5, 0.75)], [1, 0.6])).toEqual(["a"]);
  });

  it("is new again only once it was out of sight for a moment", () => {
    const sight = new InSight();
    expect([0, 300, 1400, 2800].map((now) => sight.isNew("a", now))).toEqual([true, false, false, false]);
    expect(sight.isNew("b", 2900)).toBe(true);
    expect(sight.isNew("a", 4400)).toBe(true);
  });
});

describe("sharpening", () => {
  const picture = (grey: (column: number, row: number) => number, width = 24, height = 20) => {
    const data = new Uint8ClampedArray(width * height * 4).fill(255);
    for (let place = 0; place < width * height; place += 1) {
      data.fill(grey(place % width, Math.floor(place / width)), place * 4, place * 4 + 3);
    }
    return { width, height, data, colorSpace: "srgb" } as ImageData;
  };
  const row = ({ data, width }: ImageData, number: number) =>
    Array.from({ length: width }, (_, column) => data[(number * width + column) * 4]);

  it("leaves what is even as it is, at the edges too", () => {
    const found = sharpened(picture(() => 100));
    expect(new Set(found.data)).toEqual(new Set([100, 255]));
  });

  it("takes each pixel away from the mean of the eleven by eleven around it", () => {
    const found = sharpened(picture((column) => (column < 12 ? 100 : 120)));
    // Beside the step the mean is 100 + 20 * 5 / 11 on the dark side; four times the distance to it is taken away.
    expect(row(found, 7)[11]).toBe(Math.round(100 - (4 * 20 * 5) / 11));
    expect(row(found, 7)[12]).toBe(Math.round(120 + (4 * 20 * 5) / 11));
    expect(row(found, 7)[0]).toBe(100);
    expect(row(found, 19)).toEqual(row(found, 0));
  });
});
