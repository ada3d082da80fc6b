/** A signature in ink on a page: its photo and a note stand for it until the party's own key has signed. */
import { useState } from "preact/hooks";
import type { Party } from "../core/records";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { foundBy, me } from "../state";
import { added } from "../store/jobs";
import { PhotoError, shrink } from "../store/photos";
import { NotSavedError, save } from "../store/records";
import { wake } from "../sync/loop";
import { bodyOf, FileButton, photosAt, Thumbs } from "./photos";
import type { At } from "./step";

/** Photos of pages that belong to the step itself. */
export function InkPages({ at }: { at: At }) {
  const pages = photosAt(at, "");
  return pages.length > 0 ? <Thumbs at={at} photos={pages} /> : null;
}

/** Nobody signs for somebody else: what is saved here releases nothing, and says so. */
export function InInk({ at, party }: { at: At; party: Party }) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState("");
  const [says, setSays] = useState("");
  const [saved, setSaved] = useState(false);
  const keep = async (file: File | undefined) => {
    const signer = me.value;
    if (!file || !signer) return;
    setSays("");
    const place = { piece: at.piece, step: at.step.code, found_by: foundBy.value };
    const values = { name: name.trim(), party: partyName(party), number: at.step.number };
    try {
      const made = await shrink(file);
      const photo = { ...bodyOf(made), caption: t("ink-caption", values) };
      await added(await save(signer, at.job, { type: "photo", ...place, body: photo }, [made.photo]));
      const note = { text: t("ink-note", values), pass_on: true };
      await added(await save(signer, at.job, { type: "note", ...place, body: note, under: [] }));
      wake();
      setSaved(true);
      setOpen(false);
    } catch (error) {
      if (error instanceof PhotoError) setSays(error.message);
      else if (!(error instanceof NotSavedError)) throw error;
    }
  };
  if (!open) {
    return (
      <>
        {saved && <Notice kind="care">{t("ink-saved", { party: partyName(party) })}</Notice>}
        <button type="button" class="button" onClick={() => setOpen(true)}>
          {t("ink-signed")}
        </button>
      </>
    );
  }
  return (
    <section class="body" aria-labelledby="ink-title">
      <h2 id="ink-title">{t("ink-signed")}</h2>
      <p>{t("ink-what-counts", { party: partyName(party) })}</p>
      <label class="field">
        {t("ink-who")}
        <input
          autocomplete="off"
          autocapitalize="words"
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      {says && <Notice kind="bad">{says}</Notice>}
      {name.trim().length > 1 ? (
        <FileButton main onFiles={([file]) => void keep(file)}>
          {t("ink-photograph")}
        </FileButton>
      ) : (
        <p class="small soft">{t("ink-name-first")}</p>
      )}
      <button type="button" class="button" onClick={() => setOpen(false)}>
        {t("ink-not")}
      </button>
    </section>
  );
}
