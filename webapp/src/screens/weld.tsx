/** A weld pass: stamp, procedure and lot are asked always and remembered, so that a pass is one tap. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import { LAYERS, type Layer, POSITIONS } from "../core/records";
import { t, word } from "../language";
import { Notice } from "../parts/frame";
import { ProcedureCard } from "../parts/procedure-card";
import { Qualified, today } from "../parts/qualified";
import type { Person } from "../store/jobs";
import type { EntryProps } from "./item";
import type { At } from "./step";
import { SpotCheck } from "./weld-check";
import { Logged, PassPhoto } from "./weld-logged";
import { type PassNow, usePass } from "./weld-pass";
import { ProcedurePicker, WelderPicker } from "./welder";

type Picking = "" | "welder" | "procedure" | "check";

/** The pass as it stands on the screen. */
export function WeldEntry({ at, item }: EntryProps) {
  const pass = usePass(at, item);
  const [picking, setPicking] = useState<Picking>("");
  const [logged, setLogged] = useState("");
  if (logged) return <Logged at={at} item={item} id={logged} onAnother={() => setLogged("")} />;
  if (!pass) return null;
  if (picking === "check") {
    return (
      <SpotCheck procedure={pass.procedure} typed={pass.check} onType={pass.setCheck} onDone={() => setPicking("")} />
    );
  }
  const keep = async () => {
    const id = await pass.log();
    if (id) setLogged(id);
  };
  return (
    <div class="weld">
      <Layers layer={pass.layer} onLayer={pass.setLayer} />
      <Welder pass={pass} picking={picking === "welder"} onPicking={(on) => setPicking(on ? "welder" : "")} />
      <Standing at={at} item={item} pass={pass} />
      <ProcedureField
        pass={pass}
        picking={picking === "procedure"}
        onPicking={(on) => setPicking(on ? "procedure" : "")}
      />
      <div class="pair">
        <Field label={t("weld-stamp")} value={pass.now.stamp} onValue={(stamp) => pass.type({ stamp })} />
        <Field label={t("weld-lot")} value={pass.now.lot} onValue={(lot) => pass.type({ lot })} />
      </div>
      <button type="button" class="button" onClick={() => setPicking("check")}>
        {t("weld-check-open")}
      </button>
      <PartOfJoint pass={pass} />
      {pass.fault && <Notice kind="bad">{pass.fault}</Notice>}
      <div class="weld-do">
        {pass.missing.length > 0 && (
          <p class="small">{t("weld-missing", { what: pass.missing.map((one) => word("field", one)).join(", ") })}</p>
        )}
        <PassPhoto at={at} item={item} main={false} />
        <button type="button" class="button main" disabled={!pass.ready} onClick={() => void keep()}>
          {t("weld-log")} <span>›</span>
        </button>
      </div>
    </div>
  );
}

function Layers({ layer, onLayer }: { layer: Layer; onLayer: (layer: Layer) => void }) {
  return (
    <fieldset class="layers">
      <legend class="unseen">{t("weld-layer")}</legend>
      {LAYERS.map((one) => (
        <button key={one} type="button" aria-pressed={one === layer} onClick={() => onLayer(one)}>
          {word("layer", one)}
        </button>
      ))}
    </fieldset>
  );
}

interface PickingProps {
  pass: PassNow;
  picking: boolean;
  onPicking: (on: boolean) => void;
}

function Welder({ pass, picking, onPicking }: PickingProps) {
  const { person, welder, welders } = pass;
  if (picking || !welder) {
    const pick = (one: Person) => {
      pass.pick(one);
      onPicking(false);
    };
    return <WelderPicker welders={welders} chosen={welder} onPick={pick} />;
  }
  return (
    <div class="procedure-head">
      <p>
        <span class="small soft">{t("weld-welder")}</span>
        <br />
        <b>{person?.name ?? welder}</b>
      </p>
      {welders.some((one) => one.id !== welder) && (
        <button type="button" class="station" onClick={() => onPicking(true)}>
          {t("weld-welder-other")}
        </button>
      )}
    </div>
  );
}

function ProcedureField({ pass, picking, onPicking }: PickingProps) {
  const { procedures, procedure, now, check } = pass;
  if (procedures.length === 0) {
    return <Field label={t("weld-procedure")} value={now.procedure} onValue={(id) => pass.type({ procedure: id })} />;
  }
  if (procedure && !picking) {
    const others = procedures.length > 1 ? () => onPicking(true) : undefined;
    return <ProcedureCard procedure={procedure} typed={check} onChange={others} />;
  }
  const pick = (id: string) => {
    pass.type({ procedure: id });
    onPicking(false);
  };
  return <ProcedurePicker procedures={procedures} chosen={now.procedure} onPick={pick} />;
}

function Field({ label, value, onValue }: { label: string; value: string; onValue: (text: string) => void }) {
  return (
    <label class="field">
      {label}
      <input
        autocapitalize="characters"
        autocomplete="off"
        value={value}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
    </label>
  );
}

/** Whether the welder is qualified for this pass, as far as the shop keeps qualifications. */
function Standing({ at, item, pass }: { at: At; item: Item; pass: PassNow }) {
  const { progress } = at.job;
  const { job } = progress;
  const { welder, person, procedure, part } = pass;
  if (!welder || Object.keys(job.qualifications).length === 0) return null;
  const process = procedure?.process ?? "";
  const asked = {
    process,
    day: today(),
    welds: progress.daysWelded(welder, process),
    thickness: job.thickness(at.piece, at.step.code, item.code, job.basis),
    position: part.position,
    fillet: Boolean(item.fillet),
  };
  return <Qualified name={person?.name ?? welder} held={heldBy(job.qualifications, welder)} pass={asked} />;
}

function heldBy<T>(held: Readonly<Record<string, readonly T[]>>, welder: string): readonly T[] {
  return Object.hasOwn(held, welder) ? (held[welder] ?? []) : [];
}

/** Where only a part of the joint is welded, and in which position: both may be left out. */
function PartOfJoint({ pass }: { pass: PassNow }) {
  const { part, setPart } = pass;
  return (
    <details class="covered">
      <summary>{t("weld-part")}</summary>
      <div class="pair">
        <Field label={t("weld-from")} value={part.from} onValue={(from) => setPart({ ...part, from })} />
        <Field label={t("weld-to")} value={part.to} onValue={(to) => setPart({ ...part, to })} />
      </div>
      <fieldset class="picker">
        <legend>{t("weld-position")}</legend>
        <div class="stations">
          {POSITIONS.map((one) => (
            <button
              key={one}
              type="button"
              class="station"
              aria-pressed={one === part.position}
              onClick={() => setPart({ ...part, position: one === part.position ? "" : one })}
            >
              <b>{one}</b>
              <br />
              {word("position", one)}
            </button>
          ))}
        </div>
      </fieldset>
    </details>
  );
}
