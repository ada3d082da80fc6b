/** The tags of a job: which pieces get one, on which sheet, which tags are off, and codes that are replaced. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo } from "../../state";
import { wake } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { TagList } from "./tags-list";
import { Print } from "./tags-print";

export type Tags = Schemas["Tags"];
export type TagRow = Schemas["TagRow"];

export const pathOf = (job: string) => `/jobs/${encodeURIComponent(job)}`;

export function TagsScreen({ id }: { id: string }) {
  const [tick, setTick] = useState(0);
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const { found, says } = useAsked<Tags>(`${pathOf(id)}/tags`, [tick]);
  const onReplaced = () => {
    setTicked(new Set());
    setTick((count) => count + 1);
    wake();
  };
  return (
    <Frame wide title={t("frame-job", { job: id })} back={linkTo("jobs", id)}>
      <div class="body">
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {found && (
          <>
            <div>
              <h1>{t("tags-title", { job: found.job })}</h1>
              <p class="soft">{found.title}</p>
            </div>
            <div class="tags-desk">
              <Print tags={found} ticked={ticked} />
              <div class="choices">
                <Off rows={found.tags} />
                <TagList rows={found.tags} ticked={ticked} onTick={setTicked} onReplaced={onReplaced} />
              </div>
            </div>
          </>
        )}
      </div>
    </Frame>
  );
}

/** Tags come off before heat and blasting and have to go back on: how many are out, and on which pieces. */
function Off({ rows }: { rows: readonly TagRow[] }) {
  const off = rows.filter(({ state }) => state === "taken off");
  const back = rows.filter(({ state }) => state === "back on").length;
  const groups = [
    { why: "heat", says: (values: { count: number; marks: string }) => t("tags-off-heat", values) },
    { why: "blast", says: (values: { count: number; marks: string }) => t("tags-off-blast", values) },
    { why: "", says: (values: { count: number; marks: string }) => t("tags-off-other", values) },
  ].map((group) => ({ ...group, marks: off.filter(({ why }) => reason(why) === group.why).map(({ mark }) => mark) }));
  return (
    <section class="tags-off">
      <h2>{t("tags-off")}</h2>
      {off.length === 0 ? (
        <p>{t("tags-off-none", { back })}</p>
      ) : (
        <>
          <p>
            <b>{t("tags-off-count", { count: off.length })}</b> {t("tags-off-back", { count: back })}
          </p>
          <ul class="list">
            {groups
              .filter(({ marks }) => marks.length > 0)
              .map(({ why, says, marks }) => (
                <li key={why}>{says({ count: marks.length, marks: marks.join(", ") })}</li>
              ))}
          </ul>
        </>
      )}
    </section>
  );
}

const reason = (why: string) => (why === "heat" || why === "blast" ? why : "");
