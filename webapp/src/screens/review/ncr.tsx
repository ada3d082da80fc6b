/** Dispositions and NCRs: what was decided about findings, how it stands, and for how long; apart, what was only seen. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { partyName } from "../../parts/parties";
import { linkTo } from "../../state";
import { type Decided, useHead, useLive } from "./asking";
import { onlySeen, wordOf } from "./decided";
import { Choices, ReviewPage, type Row, Table } from "./table";
import { placeText, valueText } from "./words";

const GROUPS = ["age", "piece", "disposition"] as const;
type Group = (typeof GROUPS)[number];

export function NcrPage() {
  const head = useHead();
  const [which, setWhich] = useState("open");
  const [group, setGroup] = useState<Group>("age");
  const { found: all, fault } = useLive<Decided[]>(`/decisions?which=${which}`, head);
  const decided = all?.filter((one) => !onlySeen(one));
  const seen = all?.filter(onlySeen) ?? [];
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
      {decided?.length === 0 && (
        <p class="nothing">{t(which === "open" ? "review-none-ncr" : "review-none-ncr-all")}</p>
      )}
      {groupsOf(decided ?? [], group).map(([name, lines]) => (
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
      {seen.length > 0 && <Seen lines={oldestFirst(seen)} />}
    </ReviewPage>
  );
}

/** Doubts that were looked at and left as they stand. */
function Seen({ lines }: { lines: readonly Decided[] }) {
  const title = t("review-ncr-seen", { count: lines.length });
  return (
    <>
      <div>
        <h2>{title}</h2>
        <p class="soft">{t("review-says-seen")}</p>
      </div>
      <Table
        name={title}
        columns={[t("review-piece"), t("review-ncr-days"), t("review-ncr-why")]}
        numbers={[1]}
        rows={lines.map((one) => ({
          key: one.id,
          cells: [<Place key="place" one={one} />, one.age, <Why key="why" one={one} also={seenMore(one)} />],
        }))}
      />
    </>
  );
}

/** What else there is to say of a doubt that was seen: its NCR, and that the word counts for nothing where it does not. */
function seenMore({ ncr, state }: Decided): string[] {
  return [ncr && t("review-ncr-named", { ncr }), state === "done" ? "" : word("decision", state)];
}

function oldestFirst(lines: readonly Decided[]): Decided[] {
  return [...lines].sort((a, b) => a.received - b.received);
}

/** Decisions under headings, in the order in which the first of each heading stands; under none where by age. */
function groupsOf(all: readonly Decided[], group: Group): [string, Decided[]][] {
  const found = new Map<string, Decided[]>();
  for (const one of oldestFirst(all)) {
    const name =
      group === "piece"
        ? t("review-piece-of-job", { mark: one.piece.mark, job: one.job })
        : group === "disposition"
          ? wordOf(one)
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
      <Place key="place" one={one} />,
      <>
        {wordOf(one)}
        <small>{[cycle, again].filter(Boolean).join(" · ")}</small>
      </>,
      standsText(one),
      <Why key="why" one={one} />,
    ],
  };
}

/** Where it is, as a link to its step, and what was found there. */
function Place({ one }: { one: Decided }) {
  return (
    <>
      <a href={linkTo("step", one.job, one.piece.id, one.step.code)}>{placeText(one)}</a>
      <small class="soft">
        {[t("frame-job", { job: one.job }), word("kind", one.flag), valueText(one)].filter(Boolean).join(" · ")}
      </small>
    </>
  );
}

function Why({ one, also = [] }: { one: Decided; also?: readonly string[] }) {
  return (
    <>
      {one.reason}
      <small>{[one.extent, ...also, one.by].filter(Boolean).join(" · ")}</small>
    </>
  );
}

function standsText({ state, lacking }: Decided): string {
  if (state !== "waits for agreement" || lacking.length === 0) return word("decision", state);
  return t("review-waits-for", { parties: lacking.map(partyName).join(", ") });
}
