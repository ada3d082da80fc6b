/** Every word of the app stands in both catalogues, and none in the code. */
import { readdirSync, readFileSync } from "node:fs";
import { FluentResource } from "@fluent/bundle";
import { parse, type SelectExpression, Visitor } from "@fluent/syntax";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { localeOf, speakFrom, t, word } from "./language";

const HERE = new URL(".", import.meta.url);
const CODE = readdirSync(HERE, { recursive: true, encoding: "utf8" })
  .filter((name) => /\.tsx?$/.test(name) && !/\.test\.ts$|testing\.ts$|schema\.d\.ts$/.test(name))
  .map((name) => ({ name, text: readFileSync(new URL(name, HERE), "utf8") }));
/** The core's own words are data, and reasons.ts turns its sentences; the page of parts is for developers. */
const SHOWN = CODE.filter(({ name }) => !/^core\/|^screens\/parts\.tsx$|^parts\/reasons\.ts$/.test(name));
const LABELS = ["aria-label", "title", "alt", "placeholder", "label", "says", "legend", "name", "back"];
/** Names and signs that are the same in every language. */
const SAME = /^[\p{N}\p{P}\p{S}\s]*$|^Seamtag$|^QC$|^AI$|^PIN$|^kJ\/in$|^XLSX$|^YAML$|^CSV$|^PDF$|^SVG$|^No$|^error$/u;

function catalogue(language: string): Map<string, { text: string; placeables: string[]; plurals: number }> {
  const text = readFileSync(new URL(`locales/${language}.ftl`, HERE), "utf8");
  const tree = parse(text, {});
  const found = new Map();
  for (const entry of tree.body) {
    if (entry.type === "Junk") throw new Error(`${language}.ftl cannot be read at: ${entry.content.slice(0, 80)}`);
    if (entry.type !== "Message" || !entry.value) continue;
    const seen = new Set<string>();
    let plurals = 0;
    class Look extends Visitor {
      override visitVariableReference(node: { id: { name: string } }) {
        seen.add(node.id.name);
      }
      override visitSelectExpression(node: SelectExpression) {
        plurals += 1;
        this.genericVisit(node);
      }
    }
    new Look().visit(entry.value);
    const says = text.slice(entry.value.span?.start, entry.value.span?.end);
    if (found.has(entry.id.name)) throw new Error(`${language}.ftl has ${entry.id.name} twice`);
    found.set(entry.id.name, { text: says, placeables: [...seen].sort(), plurals });
  }
  return found;
}

const [ENGLISH, SPANISH] = [catalogue("en"), catalogue("es")];

describe("the catalogues", () => {
  test("both say the same things", () => {
    expect([...SPANISH.keys()].sort()).toEqual([...ENGLISH.keys()].sort());
  });

  test("each message takes the same values in both", () => {
    const differ = [...ENGLISH].filter(([id, { placeables }]) => {
      const other = SPANISH.get(id)?.placeables;
      return other && other.join() !== placeables.join();
    });
    expect(differ.map(([id]) => id)).toEqual([]);
  });

  test("nothing was left in English", () => {
    const known = new Set(
      readFileSync(new URL("locales/same.txt", HERE), "utf8")
        .split("\n")
        .filter((line) => line && !line.startsWith("#")),
    );
    const same = [...ENGLISH].filter(([id, { text }]) => SPANISH.get(id)?.text === text && !SAME.test(text));
    expect(same.map(([id]) => id).filter((id) => !known.has(id))).toEqual([]);
  });
});

/** What the code asks a catalogue for: whole names, and beginnings of names that are put together. */
function asked(): { whole: Map<string, string>; begun: Set<string>; sets: Set<string> } {
  const [whole, begun, sets] = [new Map<string, string>(), new Set<string>(), new Set<string>()];
  for (const { name, text } of CODE) {
    for (const [, id] of text.matchAll(/["`]([a-z0-9]+(?:-[a-z0-9]+)+)["`]/g)) if (id) whole.set(id, name);
    for (const [, id] of text.matchAll(/\bt\(\s*"([a-z0-9-]+)"/g)) if (id) whole.set(id, name);
    for (const [, begin] of text.matchAll(/`([a-z0-9-]+-)\$\{/g)) if (begin) begun.add(begin);
    for (const [, set] of text.matchAll(/\bword\(\s*"([a-z-]+)"/g)) if (set) sets.add(set);
  }
  return { whole, begun, sets };
}

describe("the code", () => {
  test("asks for no message that there is not", () => {
    const missing = CODE.flatMap(({ name, text }) =>
      [...text.matchAll(/\bt\(\s*"([^"]+)"/g)]
        .filter(([, id]) => !ENGLISH.has(id ?? ""))
        .map(([, id]) => `${name}: ${id}`),
    );
    expect(missing).toEqual([]);
    for (const begin of asked().begun) {
      const any = [...ENGLISH.keys()].some((id) => id.startsWith(begin));
      if (CODE.some(({ text }) => text.includes(`t(\`${begin}`))) expect(any, begin).toBe(true);
    }
    for (const set of asked().sets)
      expect(
        [...ENGLISH.keys()].some((id) => id.startsWith(`${set}-`)),
        set,
      ).toBe(true);
  });

  test("asks for every message that there is", () => {
    const { whole, begun, sets } = asked();
    const begins = [...begun, ...[...sets].map((set) => `${set}-`)];
    const unused = [...ENGLISH.keys()].filter((id) => !whole.has(id) && !begins.some((begin) => id.startsWith(begin)));
    expect(unused).toEqual([]);
  });

  test.each(SHOWN.map(({ name, text }) => [name, text]))("%s shows no text of its own", (name, text) => {
    expect(textsIn(name, text)).toEqual([]);
  });
});

/** Texts for people in a source file: between tags, in labels, and whole sentences anywhere. */
function textsIn(name: string, text: string): string[] {
  const kind = name.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(name, text, ts.ScriptTarget.ES2022, true, kind);
  const found: string[] = [];
  const letters = (words: string) => /\p{L}{2,}/u.test(words) && !SAME.test(words.trim());
  const look = (node: ts.Node): void => {
    if (ts.isJsxText(node) && letters(node.text)) found.push(node.text.trim());
    if (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node)) {
      const words = ts.isTemplateExpression(node)
        ? node
            .getText()
            .slice(1, -1)
            .replaceAll(/\$\{[^}]*\}/g, "…")
        : node.text;
      if (inLabel(node) ? letters(words) : isSentence(words) && !isForDevelopers(node)) found.push(words);
    }
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

function inLabel(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isJsxAttribute(parent)) return LABELS.includes(parent.name.getText()) && parent.name.getText() !== "name";
  const inBraces = ts.isJsxExpression(parent) || (ts.isConditionalExpression(parent) && parent.condition !== node);
  if (!inBraces) return false;
  const holder = ts.isConditionalExpression(parent) ? parent.parent : parent;
  if (!ts.isJsxExpression(holder)) return false;
  return ts.isJsxAttribute(holder.parent) ? LABELS.includes(holder.parent.name.getText()) : true;
}

/** Begins with a capital and has another word, or ends as a sentence does. */
function isSentence(words: string): boolean {
  return /^\p{Lu}\p{Ll}+('\p{Ll}+)?[ ,]\S*\p{L}{2}/u.test(words) || /^\p{Lu}\p{Ll}.*[.?!]$/u.test(words);
}

/** Thrown where the code itself is wrong: `new Error(...)`, which nobody but a developer is to see. */
function isForDevelopers(node: ts.Node): boolean {
  return ts.isNewExpression(node.parent) && node.parent.expression.getText() === "Error";
}

test("the test itself finds texts", () => {
  const code = [
    "<p>Saved here</p>",
    '<img alt="a photo" />',
    'say("The tag is of another shop.")',
    "<b>{many ? 'all' : 'one of them'}</b>",
    '<p class="soft small">{t("saved-here")}</p>',
    'go("piece")',
  ].map((line) => textsIn("x.tsx", `const x = ${line};`));
  expect(code).toEqual([["Saved here"], ["a photo"], ["The tag is of another shop."], ["all", "one of them"], [], []]);
});

describe("speaking", () => {
  const spanish = readFileSync(new URL("locales/es.ftl", HERE), "utf8");
  const english = readFileSync(new URL("locales/en.ftl", HERE), "utf8");

  test("a word that no catalogue has stays as it is", () => {
    expect(word("state", "released")).toBe("released");
    expect(word("state", "odd")).toBe("odd");
    expect(t("no-such-message")).toBe("no-such-message");
  });

  test("another language is spoken at once", () => {
    speakFrom(spanish, "es", "es-MX");
    expect(t("sent-all")).not.toBe("all sent");
    speakFrom(english, "en");
    expect(t("sent-all")).toBe("all sent");
  });

  test.each([
    [["en-US"], "en", "en-US"],
    [["es-MX", "en"], "es", "es-MX"],
    [["en-US"], "es", "es-US"],
    [["de"], "en", "en-DE"],
  ] as const)("a phone of %s that speaks %s writes numbers as %s", (own, language, locale) => {
    expect(localeOf(language, own)).toBe(locale);
  });

  test("decimals by the customs of the region", () => {
    expect([localeOf("es", ["es-ES"]), localeOf("es", ["en-US"])].map((one) => (1.5).toLocaleString(one))).toEqual([
      "1,5",
      "1.5",
    ]);
  });

  test("catalogues are read without an error", () => {
    for (const text of [english, spanish]) expect(new FluentResource(text).body.length).toBe(ENGLISH.size);
  });
});
