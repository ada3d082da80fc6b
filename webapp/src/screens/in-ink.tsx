/** A signature in ink on a page: QC photographs the page and enters the sign-off over its photo. */
import { useState } from "preact/hooks";
import { type Point, ROLES } from "../core/records";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { namesOf } from "../parts/speaking";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import type { StoredKey } from "../store/db";
import { added, people } from "../store/jobs";
import { PhotoError, shrink } from "../store/photos";
import { NotSavedError, save } from "../store/records";
import { wake } from "../sync/loop";
import { bodyOf, FileButton, photosAt, Thumbs } from "./photos";
import { type InkPage, SignForm } from "./sign-form";
import type { At } from "./step";

/** Photos of pages that belong to the step itself. */
export function InkPages({ at }: { at: At }) {
  const pages = photosAt(at, "");
  return pages.length > 0 ? <Thumbs at={at} photos={pages} /> : null;
}

/** Whether somebody may enter what another signed in ink. */
export function mayEnter(key: StoredKey | undefined): key is StoredKey {
  return key?.roles.some((role) => ROLES.QC.includes(role)) ?? false;
}

interface InInkProps {
  at: At;
  next: Point;
  /** The key of who is to enter it. */
  stored: StoredKey | undefined;
  onSigned: () => void;
}

export function InInk({ at, next, stored, onSigned }: InInkProps) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState("");
  const [page, setPage] = useState<InkPage>();
  const party = partyName(next.party);
  if (!open) {
    return (
      <button type="button" class="button" onClick={() => setOpen(true)}>
        {t("ink-signed")}
      </button>
    );
  }
  const leave = () => {
    setPage(undefined);
    setOpen(false);
  };
  return (
    <section class="body" aria-labelledby="ink-title">
      <h2 id="ink-title">{t("ink-signed")}</h2>
      {!page && <p>{t("ink-what-counts", { party })}</p>}
      <Notice kind="care">{t("ink-seen")}</Notice>
      {!mayEnter(stored) && <WhoMayEnter />}
      {mayEnter(stored) && !page && (
        <label class="field">
          {t("ink-who")}
          <input
            autocomplete="off"
            autocapitalize="words"
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
      )}
      {mayEnter(stored) && page && (
        <>
          <p role="status">{t("ink-page-of", { name: page.name })}</p>
          <SignForm
            key={`${stored.kid} ${page.id}`}
            at={at}
            next={next}
            stored={stored}
            way={page}
            onSigned={onSigned}
          />
        </>
      )}
      {mayEnter(stored) && (
        <Photograph at={at} party={party} name={page?.name ?? name.trim()} onPage={setPage} again={!!page} />
      )}
      <button type="button" class="button" onClick={leave}>
        {t("ink-not")}
      </button>
    </section>
  );
}

function WhoMayEnter() {
  const names = namesOf("QC", useLoaded(people, []));
  return <Notice>{names ? t("ink-who-may-named", { names }) : t("ink-who-may")}</Notice>;
}

interface PhotographProps {
  at: At;
  party: string;
  /** Who signed the page; '' while nobody is named. */
  name: string;
  again: boolean;
  onPage: (page: InkPage) => void;
}

/** The photo is saved as soon as it is taken; the sign-off comes over it. */
function Photograph({ at, party, name, again, onPage }: PhotographProps) {
  const [says, setSays] = useState("");
  const keep = async (file: File | undefined) => {
    const signer = me.value;
    if (!file || !signer) return;
    setSays("");
    try {
      const made = await shrink(file);
      const body = { ...bodyOf(made), caption: t("ink-caption", { name, party }) };
      const place = { piece: at.piece, step: at.step.code, found_by: foundBy.value };
      const kept = await save(signer, at.job, { type: "photo", ...place, body }, [made.photo]);
      await added(kept);
      wake();
      onPage({ id: kept.id, sha256: body.sha256, name });
    } catch (error) {
      if (error instanceof PhotoError) setSays(error.message);
      else if (!(error instanceof NotSavedError)) throw error;
    }
  };
  if (name.length < 2) return <p class="small soft">{t("ink-name-first")}</p>;
  return (
    <>
      {says && <Notice kind="bad">{says}</Notice>}
      <FileButton main={!again} onFiles={([file]) => void keep(file)}>
        {t(again ? "ink-again" : "ink-photograph")}
      </FileButton>
    </>
  );
}
