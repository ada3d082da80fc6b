import { expect, test } from "vitest";
import { beginning, inOrder, strip } from "./text";

test("blanks are those of Python: the separators U+001C to U+001F and U+0085 are, U+FEFF is none", () => {
  expect(strip("\x1c\x1f\x85\u2003 1 2\u00a0\n")).toBe("1 2");
  expect(strip("\ufeff1")).toBe("\ufeff1");
});

test("a text is cut between characters, never inside one", () => {
  expect(beginning("𐀀𐀁a", 2)).toBe("𐀀𐀁");
});

test("texts are in the order of their characters' numbers, also beyond U+FFFF", () => {
  expect(["𐀀", "\ufffd", "b", "ab", "a", ""].sort(inOrder)).toEqual(["", "a", "ab", "b", "\ufffd", "𐀀"]);
});
