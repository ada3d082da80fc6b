/** Gauges: what each certificate says, what is overdue or due soon, and the way to a new certificate. */
import { useState } from "preact/hooks";
import "../../office-people.css";
import { UOMS } from "../../core/uoms";
import { t, word } from "../../language";
import { calendarDay } from "../../parts/customs";
import { Frame, Notice } from "../../parts/frame";
import { Mark, type Shape } from "../../parts/marks";
import { linkTo, me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { ChoiceField, Form, plainNumber, TextField } from "./filling";
import { GaugeDoubt } from "./gauge-doubt";

export type Gauge = Schemas["Gauge"];

const SHAPES: Record<string, Shape> = { overdue: "out", "due soon": "close", "in date": "in", "no day": "open" };

export function GaugesScreen({ id }: { id: string }) {
  return id ? <GaugeDoubt id={id} /> : <Shelf />;
}

function Shelf() {
  const [kept, setKept] = useState({ count: 0, id: "" });
  const [at, setAt] = useState<Gauge | "new" | null>(null);
  const { found: gauges, says } = useAsked<Gauge[]>("/gauges", [kept.count]);
  const may = me.value?.roles.some((role) => role === "planner" || role === "supervisor") ?? false;
  const count = (standing: string) => gauges?.filter((one) => one.standing === standing).length ?? 0;
  return (
    <Frame wide title={t("office")} back={linkTo("office")}>
      <div class="body">
        <h1>{t("gauges")}</h1>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {gauges && gauges.length > 0 && (
          <p>{t("gauges-count", { overdue: count("overdue"), soon: count("due soon") })}</p>
        )}
        {gauges && may && (
          <div class="office-actions">
            <button type="button" class="button" onClick={() => setAt("new")}>
              {t("gauges-add")}
            </button>
          </div>
        )}
        {at && (
          <Certificate
            key={at === "new" ? "" : at.id}
            of={at === "new" ? null : at}
            known={gauges ?? []}
            onLeave={() => setAt(null)}
            onKept={(id) => {
              setAt(null);
              setKept({ count: kept.count + 1, id });
            }}
          />
        )}
        {kept.id && at === null && <Notice>{t("office-kept", { what: kept.id })}</Notice>}
        {gauges?.length === 0 && <p class="soft">{t("gauges-none")}</p>}
        {gauges && gauges.length > 0 && <GaugeTable gauges={gauges} onRenew={may ? setAt : undefined} />}
      </div>
    </Frame>
  );
}

interface TableProps {
  gauges: readonly Gauge[];
  onRenew: ((gauge: Gauge) => void) | undefined;
}

function GaugeTable({ gauges, onRenew }: TableProps) {
  return (
    <table class="lines" aria-label={t("gauges")}>
      <thead>
        <tr>
          {["gauge", "u", "certificate", "calibrated", "due", "stands"].map((name) => (
            <th key={name} scope="col">
              {t(`gauges-${name}`)}
            </th>
          ))}
          <th scope="col">{t("jobs-ways")}</th>
        </tr>
      </thead>
      <tbody>
        {gauges.map((gauge) => (
          <tr key={gauge.id}>
            <th scope="row">
              {gauge.id} <span class="small soft">{[gauge.name, gauge.kind].join(" · ")}</span>
            </th>
            <td data-cell={t("gauges-u")}>
              <span class="nowrap">
                {gauge.uncertainty ? `${gauge.uncertainty} ${gauge.uom}` : t("gauges-u-unknown")}
              </span>
            </td>
            <td data-cell={t("gauges-certificate")}>{gauge.certificate}</td>
            <td class="nowrap" data-cell={t("gauges-calibrated")}>
              {gauge.calibrated && calendarDay(gauge.calibrated)}
            </td>
            <td class="nowrap" data-cell={t("gauges-due")}>
              {gauge.due && calendarDay(gauge.due)}
            </td>
            <td data-cell="">
              <Standing gauge={gauge} />
            </td>
            <td data-cell="">
              <div class="row-ways">
                {onRenew && (
                  <button
                    type="button"
                    class="link"
                    aria-label={t("gauges-renew-of", { id: gauge.id })}
                    onClick={() => onRenew(gauge)}
                  >
                    {t("gauges-renew")}
                  </button>
                )}
                <a href={linkTo("gauges", gauge.id)} aria-label={t("gauges-doubt-of", { id: gauge.id })}>
                  {t("gauges-doubt")}
                </a>
              </div>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** How a gauge stands, by shape and word, with the days to go where they matter. */
export function Standing({ gauge }: { gauge: Gauge }) {
  const { standing, left } = gauge;
  return (
    <span class="stands-so">
      <span aria-hidden="true">
        <Mark shape={SHAPES[standing] ?? "open"} />
      </span>{" "}
      <b>{word("due", standing)}</b> {left !== null && standing === "due soon" && t("gauges-days", { count: left })}
      {left !== null && standing === "overdue" && t("gauges-days-over", { count: -left })}
    </span>
  );
}

interface CertificateProps {
  of: Gauge | null;
  known: readonly Gauge[];
  onLeave: () => void;
  onKept: (id: string) => void;
}

const EMPTY = { id: "", kind: "", name: "", uom: "in", uncertainty: "", certificate: "", calibrated: "", due: "" };

function Certificate({ of, known, onLeave, onKept }: CertificateProps) {
  // A new certificate has a number and days of its own; U is looked up again as well.
  const first = of ? { ...EMPTY, id: of.id, kind: of.kind, name: of.name, uom: of.uom } : EMPTY;
  const [values, setValues] = useState(first);
  const field = (name: keyof typeof EMPTY) => ({
    label: t(`gauges-field-${name}`),
    value: values[name],
    onValue: (text: string) => setValues({ ...values, [name]: text }),
  });
  const taken = !of && known.some(({ id }) => id === values.id.trim());
  const keep = async () => {
    const { uncertainty, calibrated, due, ...rest } = values;
    const body = { ...rest, uncertainty: plainNumber(uncertainty), calibrated: calibrated || null, due: due || null };
    onKept((await callSignedIn<Gauge>("/gauges", body)).id);
  };
  return (
    <Form
      title={of ? t("gauges-renew-of", { id: of.id }) : t("gauges-new")}
      fault={taken ? t("gauges-there", { id: values.id.trim() }) : ""}
      onKeep={keep}
      onLeave={onLeave}
    >
      <div class="office-fields">
        <TextField {...field("id")} needed fixed={of !== null} />
        <TextField {...field("kind")} needed list={[...new Set(known.map(({ kind }) => kind))]} />
        <TextField {...field("name")} needed />
        <ChoiceField {...field("uom")} needed choices={[...UOMS.keys()].map((uom) => [uom, uom])} />
        <TextField {...field("uncertainty")} />
        <TextField {...field("certificate")} />
        <TextField {...field("calibrated")} day />
        <TextField {...field("due")} day />
      </div>
      {of && <p class="small soft">{t("gauges-judged-anew")}</p>}
    </Form>
  );
}
