import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { speakFrom } from "../../language";
import type { Decided } from "./asking";
import { onlySeen, wordOf } from "./decided";

const decided = (flag: string, disposition: string) => ({ flag, disposition }) as Decided;

beforeAll(() => speakFrom(readFileSync(new URL("../../locales/en.ftl", import.meta.url), "utf8"), "en"));

describe("what was decided", () => {
  test("about a finding is named as it was signed", () => {
    const words = ["use as is", "rework", "repair", "scrap"];
    expect(words.map((what) => wordOf(decided("out of tolerance", what)))).toEqual(words);
    expect(words.some((what) => onlySeen(decided("readings disagree", what)))).toBe(false);
  });

  test("about a doubt says that it was seen, or is done again", () => {
    const words = ["use as is", "rework", "repair"].map((what) => wordOf(decided("gauge ran out", what)));
    expect(words).toEqual(["seen, stands as it is", "do it again", "do it again"]);
  });

  test("about a doubt stands apart where it was only seen", () => {
    expect(onlySeen(decided("run rule broken", "use as is"))).toBe(true);
    expect(onlySeen(decided("run rule broken", "rework"))).toBe(false);
  });
});
