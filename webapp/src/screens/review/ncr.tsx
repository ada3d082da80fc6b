/** Dispositions and NCRs: what was decided about findings, how it stands, and for how long. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { partyName } from "../../parts/parties";
import { linkTo } from "../../state";
import { type Decided, useHead, useLive } from "./asking";
import { Choices, ReviewPage, type Row, Table } from "./table";
import { placeText, valueText } from "./words";

const GROUPS = ["age", "piece", "disposition"] as const;
type Group = (typeof GROUPS)[number];

export function NcrPage() {
  const head = useHead();
  const [which, setWhich] = useState("open");
  const [group, setGroup] = useState<Group>("age");
  const { found: all, fault } = useLive<Decided[]>(`/decisions?which=${which}`, head);
  return (
    <ReviewPage title={t("review-ncr")} says={t("review-says-ncr")} fault={fault} here={all !== undefined}>
      <div class="above-flags apart">
        <Choices
          name={t("review-ncr-which")}
          chosen={which}
          onChoose={setWhich}
          choices={["open", "all"].map((value) => ({ value, name: t(`review-ncr-${value}`) }))}
        />
        <Choices
          name={t("review-group")}
          chosen={group}
          onChoose={(value) => setGroup(value as Group)}
          choices={GROUPS.map((value) => ({ value, name: t(`review-group-${value}`) }))}
        />
      </div>
      {all?.length === 0 && <p class="nothing">{t(which === "open" ? "review-none-ncr" : "review-none-ncr-all")}</p>}
      {groupsOf(all ?? [], group).map(([name, lines]) => (
        <section key={name}>
          {name && (
            <h2>
              <span class="begins">{name}</span> <span class="soft">{lines.length}</span>
            </h2>
          )}
          <Table
            name={name || t("review-ncr")}
            columns={[
              t("review-ncr-number"),
              t("review-ncr-days"),
              t("review-piece"),
              t("review-ncr-what"),
              t("review-how-it-stands"),
              t("review-ncr-why"),
            ]}
            numbers={[1]}
            rows={lines.map(rowOf)}
          />
        </section>
      ))}
    </ReviewPage>
  );
}

/** Decisions under headings, in the order in which the first of each heading stands; under none where by age. */
function groupsOf(all: readonly Decided[], group: Group): [string, Decided[]][] {
  const byAge = [...all].sort((a, b) => a.received - b.received);
  const found = new Map<string, Decided[]>();
  for (const one of byAge) {
    const name =
      group === "piece"
        ? t("review-piece-of-job", { mark: one.piece.mark, job: one.job })
        : group === "disposition"
          ? word("disposition", one.disposition)
          : "";
    found.set(name, [...(found.get(name) ?? []), one]);
  }
  return [...found];
}

function rowOf(one: Decided): Row {
  const cycle = one.cycle ? t("review-cycle", { cycle: one.cycle }) : "";
  const again = one.again.length > 0 ? t("review-again", { count: one.again.length }) : "";
  return {
    key: one.id,
    cells: [
      one.ncr || <span class="soft">{t("review-ncr-none")}</span>,
      one.age,
      <>
        <a href={linkTo("step", one.job, one.piece.id, one.step.code)}>{placeText(one)}</a>
        <small>
          {[t("frame-job", { job: one.job }), word("kind", one.flag), valueText(one)].filter(Boolean).join(" · ")}
        </small>
      </>,
      <>
        {word("disposition", one.disposition)}
        <small>{[cycle, again].filter(Boolean).join(" · ")}</small>
      </>,
      standsText(one),
      <>
        {one.reason}
        <small>{[one.extent, one.by].filter(Boolean).join(" · ")}</small>
      </>,
    ],
  };
}

function standsText({ state, lacking }: Decided): string {
  if (state !== "waits for agreement" || lacking.length === 0) return word("decision", state);
  return t("review-waits-for", { parties: lacking.map(partyName).join(", ") });
}
