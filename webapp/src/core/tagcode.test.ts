import { expect, test } from "vitest";
import { checkSymbol, codeOf, forgiven, linkOf, readLink } from "./tagcode";
import { vectors } from "./vectors";

interface Given {
  check_symbol: { symbols: string; check: string }[];
  code_of: { number: number; code: string | null }[];
  forgiven: { typed: string; code: string | null }[];
  read_link: { text: string; read: [string, string] | null }[];
  link_of: { host: string; code: string; link: string }[];
}

const given = vectors<Given>("tagcode");

test.each(given.check_symbol)("the check symbol of $symbols is $check", ({ symbols, check }) => {
  expect(checkSymbol(symbols)).toBe(check);
});

test.each(given.code_of)("$number makes the code $code", ({ number, code }) => {
  expect(codeOf(number)).toBe(code);
});

test.each(given.forgiven)("'$typed' is forgiven as $code", ({ typed, code }) => {
  expect(forgiven(typed)).toBe(code);
});

test.each(given.read_link)("'$text' is read as $read", ({ text, read }) => {
  expect(readLink(text)).toEqual(read);
});

test.each(given.link_of)("the link of $code at $host is in capitals", ({ host, code, link }) => {
  expect(linkOf(host, code)).toBe(link);
});
