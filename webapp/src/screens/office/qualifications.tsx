/** The makers' qualifications: which lapse soon, every test that was passed, and the way to a new proof. */
import { useState } from "preact/hooks";
import { EFFICIENCY, POSITIONS } from "../../core/welding";
import { t, word } from "../../language";
import { calendarDay } from "../../parts/customs";
import { Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { callSignedIn } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { ChoiceField, Form, plainNumber, TextField } from "./filling";
import type { Listed } from "./people";

type All = Schemas["Qualifications"];
type Held = Schemas["Held"];
type Lapse = Schemas["Continuity"];

const SOON = 30;

export function Qualifications({ people }: { people: readonly Listed[] }) {
  const [kept, setKept] = useState({ count: 0, id: "" });
  const [at, setAt] = useState<Held | "new" | null>(null);
  const { found, says } = useAsked<All>("/qualifications", [kept.count]);
  const soon = found?.lapses.filter((one) => one.lapsed || one.left <= SOON) ?? [];
  return (
    <section class="choices">
      <h2>{t("qualified")}</h2>
      <Notice kind="care">{t("qualified-decides")}</Notice>
      {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
      {found && found.held.length > 0 && (
        <>
          <h3>{t("qualified-soon")}</h3>
          {soon.length === 0 ? <p class="soft">{t("qualified-none-soon")}</p> : <Lapses lapses={soon} />}
        </>
      )}
      {found && (
        <div class="office-actions">
          <button type="button" class="button" onClick={() => setAt("new")}>
            {t("qualified-add")}
          </button>
        </div>
      )}
      {at && (
        <QualificationForm
          key={at === "new" ? "" : at.id}
          of={at === "new" ? null : at}
          known={found?.held ?? []}
          people={people}
          onLeave={() => setAt(null)}
          onKept={(id) => {
            setAt(null);
            setKept({ count: kept.count + 1, id });
          }}
        />
      )}
      {kept.id && at === null && <Notice>{t("office-kept", { what: kept.id })}</Notice>}
      {found?.held.length === 0 && <p class="soft">{t("qualified-none")}</p>}
      {found && found.held.length > 0 && (
        <>
          <h3>{t("qualified-held")}</h3>
          <Tests all={found} onRenew={setAt} />
        </>
      )}
    </section>
  );
}

/** How long a process holds, by shape and word. */
function Holds({ lapse }: { lapse: Lapse }) {
  const soon = lapse.left <= SOON;
  const says = lapse.lapsed ? "qualified-lapsed" : soon ? "qualified-lapses-soon" : "qualified-holds";
  return (
    <span class="stands-so">
      {calendarDay(lapse.lapses)}{" "}
      <span aria-hidden="true">
        <Mark shape={lapse.lapsed ? "out" : soon ? "close" : "in"} />
      </span>{" "}
      <b>{t(says)}</b>
    </span>
  );
}

function Lapses({ lapses }: { lapses: readonly Lapse[] }) {
  return (
    <table class="lines" aria-label={t("qualified-soon")}>
      <thead>
        <tr>
          {["who", "process", "last", "lapses"].map((name) => (
            <th key={name} scope="col">
              {t(`qualified-${name}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lapses.map((one) => (
          <tr key={`${one.person} ${one.process}`}>
            <th scope="row">
              {one.name} <span class="small soft">{one.stamp}</span>
            </th>
            <td data-cell={t("qualified-process")}>{one.process}</td>
            <td data-cell={t("qualified-last")}>{calendarDay(one.last)}</td>
            <td data-cell={t("qualified-lapses")}>
              <Holds lapse={one} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function couponOf({ coupon, coupon_od: od, layers }: Held): string {
  return od ? t("qualified-of-pipe", { coupon, od, layers }) : t("qualified-of-coupon", { coupon, layers });
}

function Tests({ all, onRenew }: { all: All; onRenew: (one: Held) => void }) {
  return (
    <table class="lines" aria-label={t("qualified-held")}>
      <thead>
        <tr>
          {["who", "process", "test", "coupon", "tested", "continued", "lapses"].map((name) => (
            <th key={name} scope="col">
              {t(`qualified-${name}`)}
            </th>
          ))}
          <th scope="col">{t("jobs-ways")}</th>
        </tr>
      </thead>
      <tbody>
        {all.held.map((one) => {
          const lapse = all.lapses.find(({ person, process }) => person === one.person && process === one.process);
          return (
            <tr key={one.id}>
              <th scope="row">
                {one.name} <span class="small soft">{[one.id, one.certificate].filter(Boolean).join(" · ")}</span>
              </th>
              <td data-cell={t("qualified-process")}>{one.process}</td>
              <td data-cell={t("qualified-test")}>{word("weld-test", one.test)}</td>
              <td data-cell={t("qualified-coupon")}>{couponOf(one)}</td>
              <td data-cell={t("qualified-tested")}>{calendarDay(one.tested)}</td>
              <td data-cell={t("qualified-continued")}>{one.continued ? calendarDay(one.continued) : ""}</td>
              <td data-cell={t("qualified-lapses")}>{lapse && <Holds lapse={lapse} />}</td>
              <td data-cell="">
                <div class="row-ways">
                  <button
                    type="button"
                    class="link"
                    aria-label={t("qualified-renew-of", { id: one.id, name: one.name })}
                    onClick={() => onRenew(one)}
                  >
                    {t("qualified-renew")}
                  </button>
                </div>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

interface FormProps {
  of: Held | null;
  known: readonly Held[];
  people: readonly Listed[];
  onLeave: () => void;
  onKept: (id: string) => void;
}

const TEXTS = ["id", "person", "process", "test", "coupon", "layers", "coupon_od", "tested", "certificate"] as const;
const MAKERS: readonly string[] = ["welder", "fitter", "tube roller"];

function QualificationForm({ of, known, people, onLeave, onKept }: FormProps) {
  const [values, setValues] = useState<Record<string, string>>(() =>
    Object.fromEntries([...TEXTS, "continued" as const].map((name) => [name, String(of?.[name] ?? "")])),
  );
  const field = (name: string) => ({
    label: t(`qualified-field-${name.replaceAll("_", "-")}`),
    value: values[name] ?? "",
    onValue: (text: string) => setValues({ ...values, [name]: text }),
  });
  const taken = !of && known.some(({ id }) => id === values.id?.trim());
  const makers = people.filter((who) => who.id === of?.person || who.roles.some((role) => MAKERS.includes(role)));
  const keep = async () => {
    const { coupon = "", coupon_od = "", continued = "", layers = "", ...rest } = values;
    const numbers = { coupon: plainNumber(coupon), coupon_od: plainNumber(coupon_od), layers: Number(layers) };
    const body = { ...rest, ...numbers, continued: continued || null };
    onKept((await callSignedIn<Schemas["Qualification"]>("/qualifications", body)).id);
  };
  return (
    <Form
      title={of ? t("qualified-renew-of", { id: of.id, name: of.name }) : t("qualified-new")}
      fault={taken ? t("qualified-there", { id: values.id ?? "" }) : ""}
      onKeep={keep}
      onLeave={onLeave}
    >
      <div class="office-fields">
        {of && <TextField {...field("continued")} day needed />}
        <TextField {...field("id")} needed fixed={of !== null} />
        <ChoiceField {...field("person")} needed choices={makers.map((who) => [who.id, who.name])} />
        <ChoiceField {...field("process")} needed choices={Object.keys(EFFICIENCY).map((one) => [one, one])} />
        <ChoiceField
          {...field("test")}
          needed
          choices={Object.keys(POSITIONS).map((one) => [one, word("weld-test", one)])}
        />
        <TextField {...field("coupon")} needed />
        <TextField {...field("layers")} needed />
        <TextField {...field("coupon_od")} />
        <TextField {...field("tested")} day needed />
        <TextField {...field("certificate")} />
        {!of && <TextField {...field("continued")} day />}
      </div>
    </Form>
  );
}
