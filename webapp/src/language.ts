/** What people read, in the language they chose: every word of the app stands in locales/, none in the code. */
import { FluentBundle, FluentResource, type FluentVariable } from "@fluent/bundle";
import { signal } from "@preact/signals";
import english from "./locales/en.ftl?url";
import spanish from "./locales/es.ftl?url";

export const LANGUAGES = { en: "English", es: "Español" } as const;
export type Language = keyof typeof LANGUAGES;

const CATALOGUES: Record<Language, string> = { en: english, es: spanish };
const KEPT = "seamtag.language";

/** What is spoken now; whatever shows a message is shown anew when it changes. */
export const spoken = signal<Language>("en");
let bundle = new FluentBundle("en");

/** The language chosen on this phone, else the first of the phone's own that there is, else English. */
export function languageWanted(): Language {
  const own = typeof navigator === "undefined" ? [] : navigator.languages;
  const all = [localStorage.getItem(KEPT) ?? "", ...own].map((tag) => tag.slice(0, 2));
  return all.find((tag): tag is Language => tag in LANGUAGES) ?? "en";
}

/** The language with the customs of this phone's region: how numbers and dates are written. */
export function localeOf(language: Language, own: readonly string[] = navigator.languages): string {
  const same = own.find((tag) => tag.slice(0, 2) === language);
  const region = new Intl.Locale(own[0] ?? "en").maximize().region ?? "";
  return same ?? `${language}-${region}`;
}

/** Take a catalogue's text as what is spoken from now on. */
export function speakFrom(text: string, language: Language, locale: string = language): void {
  const made = new FluentBundle(locale, { useIsolating: false });
  made.addResource(new FluentResource(text));
  bundle = made;
  spoken.value = language;
}

/** Fetch a language's catalogue (it is precached) and speak it; it is remembered where it was chosen by hand. */
export async function speak(language: Language, chosen = false): Promise<void> {
  const answer = await fetch(CATALOGUES[language]);
  if (!answer.ok) throw new Error(`No catalogue of ${language} (${answer.status}).`);
  if (chosen) localStorage.setItem(KEPT, language);
  speakFrom(await answer.text(), language, localeOf(language));
  document.documentElement.lang = language;
}

/** The words of a message; its own name where no catalogue has it, so that a test and a reader see which. */
export function t(id: string, values?: Record<string, FluentVariable>): string {
  void spoken.value;
  const message = bundle.getMessage(id);
  return message?.value ? bundle.formatPattern(message.value, values ?? null) : id;
}

/** A word of a closed set, such as a state or a layer, as people read it: message SET-WORD, the word itself where none. */
export function word(set: string, value: string): string {
  const id = `${set}-${value.toLowerCase().replaceAll(/[^a-z0-9]+/g, "-")}`;
  return value && bundle.hasMessage(id) ? t(id) : value;
}

/** Dates and numbers as people here write them. */
export function locale(): string {
  return bundle.locales[0] ?? "en";
}

/** Names or parts joined as people here join them: 'engineering and the Authorized Inspector'. */
export function listed(parts: readonly string[], type: "conjunction" | "disjunction" = "conjunction"): string {
  return new Intl.ListFormat(locale(), { type }).format(parts);
}
