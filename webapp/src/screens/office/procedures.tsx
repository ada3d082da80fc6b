/** Welding procedures: the ranges that passes are held against, new revisions, and the day one is withdrawn on. */
import { useState } from "preact/hooks";
import "../../office-people.css";
import { Decimal } from "../../core/numbers";
import { CHECKED, type Procedure } from "../../core/procedures";
import { t, word } from "../../language";
import { calendarDay } from "../../parts/customs";
import { Frame, Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { limitText } from "../../parts/notation";
import { today } from "../../parts/qualified";
import { asked, mostEnergyText } from "../../parts/spot";
import { linkTo, me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { Form, TextField } from "./filling";
import { ProcedureForm } from "./procedure-form";

export type Kept = Schemas["Procedure"];

/** What is being done with a procedure; id '' for a new one. */
interface At {
  readonly what: "write" | "withdraw";
  readonly of: Kept | null;
}

const MAY: readonly string[] = ["planner", "supervisor", "engineer"];

export function ProceduresScreen() {
  const [kept, setKept] = useState({ count: 0, id: "" });
  const [at, setAt] = useState<At | null>(null);
  const { found: procedures, says } = useAsked<Kept[]>("/procedures", [kept.count]);
  const may = me.value?.roles.some((role) => MAY.includes(role)) ?? false;
  const keep = async (body: unknown) => {
    const { id } = await callSignedIn<Kept>("/procedures", body);
    setAt(null);
    setKept({ count: kept.count + 1, id });
  };
  return (
    <Frame wide title={t("office")} back={linkTo("office")}>
      <div class="body">
        <h1>{t("procedures")}</h1>
        <Notice kind="care">{t("procedures-decide")}</Notice>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {procedures && may && (
          <div class="office-actions">
            <button type="button" class="button" onClick={() => setAt({ what: "write", of: null })}>
              {t("procedures-add")}
            </button>
          </div>
        )}
        {at?.what === "write" && (
          <ProcedureForm
            key={at.of?.id}
            of={at.of}
            known={procedures ?? []}
            onKeep={keep}
            onLeave={() => setAt(null)}
          />
        )}
        {at?.what === "withdraw" && at.of && (
          <Withdraw key={at.of.id} of={at.of} onKeep={keep} onLeave={() => setAt(null)} />
        )}
        {kept.id && at === null && <Notice>{t("office-kept", { what: kept.id })}</Notice>}
        {procedures?.length === 0 && <p class="soft">{t("procedures-none")}</p>}
        {procedures && procedures.length > 0 && (
          <ProcedureTable procedures={procedures} onAt={may ? setAt : undefined} onKeep={keep} />
        )}
      </div>
    </Frame>
  );
}

interface TableProps {
  procedures: readonly Kept[];
  onAt: ((at: At) => void) | undefined;
  onKeep: (body: unknown) => Promise<void>;
}

function ProcedureTable({ procedures, onAt, onKeep }: TableProps) {
  const heads = ["procedures-procedure", "procedure-field-process", "procedure-field-positions", "procedures-ranges"];
  return (
    <table class="lines" aria-label={t("procedures")}>
      <thead>
        <tr>
          {[...heads, "procedures-state"].map((name) => (
            <th key={name} scope="col">
              {t(name)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {procedures.map((one) => (
          <tr key={one.id}>
            <th scope="row">
              {one.id}{" "}
              <span class="small soft">
                {[one.name, one.revision && t("procedures-revision", { revision: one.revision })]
                  .filter(Boolean)
                  .join(" · ")}
              </span>
            </th>
            <td data-cell={t("procedure-field-process")}>{one.process}</td>
            <td data-cell={t("procedure-field-positions")}>{one.positions.join(" ")}</td>
            <td data-cell="">
              <Ranges of={one} />
            </td>
            <td data-cell="">
              <InUse withdrawn={one.withdrawn ?? null} />
              {onAt && <Ways of={one} onAt={onAt} onKeep={onKeep} />}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What a procedure asks, a range a line; what it leaves open is left out. */
function Ranges({ of }: { of: Kept }) {
  const procedure = of as unknown as Procedure;
  const between = of.thickness && {
    lower: new Decimal(of.thickness.from),
    upper: new Decimal(of.thickness.to),
    reason: "",
  };
  const ranges: [string, string][] = [
    [t("weld-thickness"), between ? limitText(between, "in") : ""],
    ...CHECKED.map(([name]): [string, string] => [word("weld-value", name), asked(procedure, name)]),
    [t("weld-heat-input"), mostEnergyText(procedure)],
    [t("weld-fillers"), (of.fillers ?? []).join(", ")],
  ];
  return (
    <ul class="plain-list small">
      {ranges
        .filter(([, range]) => range)
        .map(([name, range]) => (
          <li key={name}>{t("procedures-range", { name, range })}</li>
        ))}
    </ul>
  );
}

function InUse({ withdrawn }: { withdrawn: string | null }) {
  const gone = withdrawn !== null && withdrawn <= today();
  const day = calendarDay(withdrawn ?? "");
  const says = gone ? "procedures-withdrawn" : withdrawn ? "procedures-will-go" : "procedures-in-use";
  return (
    <span>
      <span aria-hidden="true">
        <Mark shape={gone ? "blocked" : withdrawn ? "close" : "in"} />
      </span>{" "}
      <b>{t(says, { day })}</b>
    </span>
  );
}

interface WaysProps {
  of: Kept;
  onAt: (at: At) => void;
  onKeep: (body: unknown) => Promise<void>;
}

function Ways({ of, onAt, onKeep }: WaysProps) {
  const [says, setSays] = useState("");
  const { id } = of;
  return (
    <>
      <div class="row-ways">
        <button
          type="button"
          class="link"
          aria-label={t("procedures-replace-of", { id })}
          onClick={() => onAt({ what: "write", of })}
        >
          {t("procedures-replace")}
        </button>
        {of.withdrawn ? (
          <button
            type="button"
            class="link"
            aria-label={t("procedures-back-of", { id })}
            onClick={() => void onKeep({ ...of, withdrawn: null }).catch((error: Error) => setSays(error.message))}
          >
            {t("procedures-back")}
          </button>
        ) : (
          <button
            type="button"
            class="link"
            aria-label={t("procedures-withdraw-of", { id })}
            onClick={() => onAt({ what: "withdraw", of })}
          >
            {t("procedures-withdraw")}
          </button>
        )}
      </div>
      {says && <Notice kind="bad">{says}</Notice>}
    </>
  );
}

interface WithdrawProps {
  of: Kept;
  onKeep: (body: unknown) => Promise<void>;
  onLeave: () => void;
}

function Withdraw({ of, onKeep, onLeave }: WithdrawProps) {
  const [day, setDay] = useState(today());
  return (
    <Form
      title={t("procedures-withdraw-of", { id: of.id })}
      keep={t("procedures-withdraw")}
      onKeep={() => onKeep({ ...of, withdrawn: day })}
      onLeave={onLeave}
    >
      <p>{t("procedures-withdraw-means", { id: of.id })}</p>
      <div class="office-fields">
        <TextField label={t("procedures-withdraw-on")} value={day} onValue={setDay} needed day />
      </div>
    </Form>
  );
}
