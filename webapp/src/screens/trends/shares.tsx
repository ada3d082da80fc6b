/** Which part of what each person measured was flagged, by item: where to look first, with how sure that is. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo } from "../../state";
import { changes } from "../../store/jobs";
import { useAsked } from "../office/asking";
import type { Share, Shares } from "./asking";
import { Choice } from "./choices";
import { ShareSaid } from "./groups";
import { Printed } from "./printed";

const DAYS = ["1", "7", "30", "90", "365"];
const FIRST = 100;

export function SharesPage() {
  const [days, setDays] = useState("7");
  const [person, setPerson] = useState("");
  const [most, setMost] = useState(FIRST);
  const { found, says } = useAsked<Shares>(`/trends/proportions?days=${days}`, [changes.value]);
  const people = new Map(found?.lines.map((line) => [line.person, line.person_name]));
  const lines = found?.lines.filter((line) => !person || line.person === person) ?? [];
  return (
    <Frame wide title={t("trends")} back={linkTo("trends")}>
      <div class="body trends">
        <Printed
          about={[t("trends-shares"), t("trends-days-count", { count: Number(days) }), people.get(person) ?? ""]}
        />
        <h1>{t("trends-shares")}</h1>
        <p>{t("trends-shares-means")}</p>
        {says && <Notice kind="bad">{t("trends-offline", { says })}</Notice>}
        <div class="trend-search unprinted">
          <Choice
            label={t("trends-days")}
            value={days}
            onValue={setDays}
            choices={DAYS.map((count) => [count, t("trends-days-count", { count: Number(count) })])}
          />
          {found && !found.names_left_out && (
            <Choice
              label={t("trends-filter-maker")}
              value={person}
              onValue={setPerson}
              choices={[["", t("trends-filter-all")], ...people]}
            />
          )}
        </div>
        {found?.names_left_out && <p class="soft">{t("trends-names-left-out")}</p>}
        {found && lines.length === 0 && <p class="soft">{t("trends-shares-none")}</p>}
        {lines.length > 0 && <ShareTable lines={lines.slice(0, most)} names={!found?.names_left_out} />}
        {lines.length > most && (
          <button type="button" class="button unprinted" onClick={() => setMost(most + FIRST)}>
            {t("trends-more", { count: Math.min(FIRST, lines.length - most) })}
          </button>
        )}
      </div>
    </Frame>
  );
}

function ShareTable({ lines, names }: { lines: readonly Share[]; names: boolean }) {
  return (
    <table class="lines" aria-label={t("trends-shares")}>
      <thead>
        <tr>
          {[...(names ? ["who"] : []), "item", "flagged", "interval"].map((name) => (
            <th key={name} scope="col">
              {t(`trends-column-${name}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr
            key={`${line.person} ${line.plan} ${line.step} ${line.item}`}
            class={line.flagged === 0 ? "trend-quiet" : undefined}
          >
            {names && <th scope="row">{line.person_name}</th>}
            <td data-cell={t("trends-column-item")}>
              <a href={linkTo("trends", line.plan, line.step, line.item)}>{line.name}</a>{" "}
              <span class="small soft">
                {line.step_number} {line.step_name}
              </span>
            </td>
            <td data-cell={t("trends-column-flagged")}>
              <ShareSaid share={line} />
            </td>
            <td data-cell="">
              <Interval line={line} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The share's interval on a scale from nothing to all. */
function Interval({ line }: { line: Share }) {
  const x = (share: number) => 4 + share * 152;
  return (
    <svg class="trend-interval" viewBox="0 0 160 16" aria-hidden="true">
      <path d="M4 8H156" stroke="var(--line)" />
      <path d={`M${x(line.low)} 8H${x(line.high)}`} stroke="var(--ink)" stroke-width="3" />
      <rect x={x(line.share) - 4} y="4" width="8" height="8" fill={line.flagged > 0 ? "var(--out)" : "var(--in)"} />
    </svg>
  );
}
