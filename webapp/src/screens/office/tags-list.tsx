/** Every piece with its code and where its tag is; to tick for printing, and to replace a code. */
import { useState } from "preact/hooks";
import { locale, t } from "../../language";
import { Notice } from "../../parts/frame";
import { fitting } from "../../scan/marks";
import { callSignedIn } from "../../sync/loop";
import { stateWords } from "../tagging";
import type { TagRow } from "./tags";

/** So many rows at a time: a job may have thousands of pieces. */
const SHOWN = 200;

interface TagListProps {
  rows: readonly TagRow[];
  ticked: ReadonlySet<string>;
  onTick: (codes: ReadonlySet<string>) => void;
  onReplaced: () => void;
}

export function TagList({ rows, ticked, onTick, onReplaced }: TagListProps) {
  const [typed, setTyped] = useState("");
  const [shown, setShown] = useState(SHOWN);
  const found = fitting(typed, rows, (row) => [row.mark, `${row.kind} ${row.name} ${row.code}`]);
  const codes = found.map(({ code }) => code).filter(Boolean);
  const all = codes.length > 0 && codes.every((code) => ticked.has(code));
  const tick = (some: readonly string[], on: boolean) => {
    const left = [...ticked].filter((code) => !some.includes(code));
    onTick(new Set(on ? [...left, ...some] : left));
  };
  return (
    <section class="choices">
      <h2>{t("tags-list", { count: rows.length })}</h2>
      <label class="field">
        {t("tags-find")}
        <input type="search" value={typed} onInput={(event) => setTyped(event.currentTarget.value)} />
      </label>
      <label class="check">
        <input type="checkbox" checked={all} onChange={(event) => tick(codes, event.currentTarget.checked)} />
        {t("tags-tick-all", { count: codes.length })}
      </label>
      <table class="lines">
        <caption class="hidden-input">{t("tags-list", { count: rows.length })}</caption>
        <thead>
          <tr>
            <th scope="col">{t("tags-mark")}</th>
            <th scope="col">{t("tags-code")}</th>
            <th scope="col">{t("tags-where")}</th>
          </tr>
        </thead>
        <tbody>
          {found.slice(0, shown).map((row) => (
            <Row key={row.piece} row={row} on={ticked.has(row.code)} onTick={tick} onReplaced={onReplaced} />
          ))}
        </tbody>
      </table>
      {found.length === 0 && <p role="status">{t("job-none-fits", { typed })}</p>}
      {found.length > shown && (
        <button type="button" class="button" onClick={() => setShown(shown + SHOWN)}>
          {t("job-more", { count: Math.min(SHOWN, found.length - shown) })}
        </button>
      )}
    </section>
  );
}

interface RowProps {
  row: TagRow;
  on: boolean;
  onTick: (codes: readonly string[], on: boolean) => void;
  onReplaced: () => void;
}

function Row({ row, on, onTick, onReplaced }: RowProps) {
  const [asking, setAsking] = useState(false);
  return (
    <tr>
      <th scope="row">
        <label class="check tags-tick">
          <input
            type="checkbox"
            checked={on}
            disabled={!row.code}
            onChange={(event) => onTick([row.code], event.currentTarget.checked)}
          />
          <span>
            {row.mark} <span class="small soft">{[row.kind, row.name].filter(Boolean).join(" · ")}</span>
          </span>
        </label>
      </th>
      <td data-cell={t("tags-code")}>
        <b class="nowrap">{row.code || t("tags-no-code")}</b>
        {row.retired.length > 0 && (
          <span class="small soft tags-former">{t("tags-former", { codes: row.retired.join(", ") })}</span>
        )}
      </td>
      <td data-cell={t("tags-where")}>
        {stateWords(row.state, row.why)}
        {row.at && <span class="small soft"> · {when(row.at)}</span>}
        {row.code && !asking && (
          <button
            type="button"
            class="link tags-replace"
            aria-label={t("tags-replace-of", { mark: row.mark })}
            onClick={() => setAsking(true)}
          >
            {t("tags-replace")}
          </button>
        )}
        {asking && <Replace row={row} onLeave={() => setAsking(false)} onReplaced={onReplaced} />}
      </td>
    </tr>
  );
}

function when(at: string): string {
  const time = new Date(at);
  return Number.isNaN(time.getTime()) ? at : time.toLocaleDateString(locale(), { day: "numeric", month: "short" });
}

/** A lost tag may be found by somebody: its code is taken out of use, and a scan says so. */
function Replace({ row, onLeave, onReplaced }: { row: TagRow; onLeave: () => void; onReplaced: () => void }) {
  const [reason, setReason] = useState("");
  const [says, setSays] = useState("");
  const replace = (event: Event) => {
    event.preventDefault();
    setSays("");
    void callSignedIn(`/tags/${row.code}/replace`, { reason }).then(
      () => {
        onLeave();
        onReplaced();
      },
      (error: Error) => setSays(error.message),
    );
  };
  return (
    <form class="choices" onSubmit={replace}>
      <p class="small">{t("tags-replace-means", { code: row.code })}</p>
      <label class="field">
        {t("tags-replace-why")}
        <input type="text" required value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      {says && <Notice kind="bad">{says}</Notice>}
      <div class="pair">
        <button type="submit" class="button" disabled={!reason.trim()}>
          {t("tags-replace-now", { code: row.code })}
        </button>
        <button type="button" class="button" onClick={onLeave}>
          {t("tagging-leave")}
        </button>
      </div>
    </form>
  );
}
