/** A weld pass, and an outside report. Stamp, procedure and lot are asked always, and remembered. */
import { useState } from "preact/hooks";
import { shownShort } from "../core/numbers";
import { LAYERS, type Layer, type Result } from "../core/records";
import { arcEnergy, NoAnswerError } from "../core/welding";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { me } from "../state";
import { setSetting, setting } from "../store/db";
import { type EntryProps, mine, record, whyAgain } from "./item";
import { reading } from "./measure";

interface Remembered {
  stamp: string;
  procedure: string;
  lot: string;
}

const NOTHING: Remembered = { stamp: "", procedure: "", lot: "" };

/** What a spot check reads, each with its uom; all of it may be left out. */
const CHECKED = [
  ["preheat", "Preheat", "degF"],
  ["interpass", "Interpass", "degF"],
  ["volts", "Volts", "V"],
  ["amps", "Amps", "A"],
  ["travel", "Travel", "in/min"],
] as const;
const PLACED = [
  ["from", "From"],
  ["to", "To"],
] as const;

type Checked = (typeof CHECKED)[number][0] | (typeof PLACED)[number][0];

export function WeldEntry({ at, item, onDone }: EntryProps) {
  const name = `weld ${me.value?.person}`;
  const kept = useLoaded(() => setting<Remembered>(name), [name]);
  const [typed, setTyped] = useState<Partial<Remembered>>({});
  const [check, setCheck] = useState<Partial<Record<Checked, string>> | null>(null);
  const named = LAYERS.find((layer) => layer === item.code);
  const [layer, setLayer] = useState<Layer>(named ?? "cap");
  const now: Remembered = { ...NOTHING, stamp: me.value?.stamp ?? "", ...kept, ...typed };
  const wrong = faultsOf(check ?? {});
  const keep = async () => {
    await setSetting(name, now);
    const read = Object.fromEntries(Object.entries(check ?? {}).filter(([, text]) => text?.trim()));
    await record(at, item, "weld", { layer, welder: me.value?.person ?? "", ...now, ...read });
    onDone();
  };
  const field = (label: string, key: keyof Remembered) => (
    <label class="field">
      {label}
      <input
        autocapitalize="characters"
        autocomplete="off"
        value={now[key]}
        onInput={(event) => setTyped({ ...typed, [key]: event.currentTarget.value })}
      />
    </label>
  );
  return (
    <>
      <div class="stations">
        {LAYERS.map((one) => (
          <button key={one} type="button" class="station" aria-pressed={one === layer} onClick={() => setLayer(one)}>
            {one}
          </button>
        ))}
      </div>
      {field("Stamp", "stamp")}
      {field("Procedure", "procedure")}
      {field("Filler lot", "lot")}
      {check === null ? (
        <button type="button" class="button" onClick={() => setCheck({})}>
          Spot check, or part of the joint only
        </button>
      ) : (
        <SpotCheck check={check} onCheck={setCheck} />
      )}
      {wrong && <Notice kind="bad">{wrong}</Notice>}
      <button
        type="button"
        class="button main"
        disabled={!now.stamp || !now.procedure || !now.lot || wrong !== ""}
        onClick={() => void keep()}
      >
        Log the pass <span>›</span>
      </button>
    </>
  );
}

/** Temperatures, volts, amps and travel of one pass, the arc energy they make, and the part of the joint it is. */
function SpotCheck({
  check,
  onCheck,
}: {
  check: Partial<Record<Checked, string>>;
  onCheck: (check: Partial<Record<Checked, string>>) => void;
}) {
  const field = (key: Checked, label: string, uom = "") => (
    <label class="field" key={key}>
      <span>
        {label} <span class="soft">{uom}</span>
      </span>
      <input
        inputMode={uom ? "decimal" : "text"}
        autocomplete="off"
        value={check[key] ?? ""}
        onInput={(event) => onCheck({ ...check, [key]: event.currentTarget.value })}
      />
    </label>
  );
  const energy = energyOf(check);
  return (
    <fieldset class="spot-check">
      <legend>Spot check</legend>
      <div class="pair">{CHECKED.slice(0, 2).map(([key, label, uom]) => field(key, label, uom))}</div>
      <div class="pair">{CHECKED.slice(2, 4).map(([key, label, uom]) => field(key, label, uom))}</div>
      <div class="pair">
        {CHECKED.slice(4).map(([key, label, uom]) => field(key, label, uom))}
        <output class="energy">{energy && `Arc energy ${energy} kJ/in`}</output>
      </div>
      <p class="small soft">Arc energy is without the efficiency of the process; what the procedure means counts.</p>
      <p class="small soft">Only a part of the joint: from and to, by the clock or by station.</p>
      <div class="pair">{PLACED.map(([key, label]) => field(key, label))}</div>
    </fieldset>
  );
}

function faultsOf(check: Partial<Record<Checked, string>>): string {
  for (const [key, label] of CHECKED) {
    const { fault } = reading(check[key] ?? "");
    if (fault) return `${label}: ${fault}`;
  }
  return "";
}

/** In kJ per inch, where volts, amps and travel are all there. */
export function energyOf(check: Partial<Record<Checked, string>>): string {
  const [volts, amps, travel] = (["volts", "amps", "travel"] as const).map((key) => reading(check[key] ?? "").value);
  if (!volts || !amps || !travel) return "";
  try {
    return shownShort(arcEnergy(volts, amps, travel).toDecimalPlaces(2));
  } catch (error) {
    if (error instanceof NoAnswerError) return "";
    throw error;
  }
}

export function ReportEntry({ at, item, onDone }: EntryProps) {
  const [number, setNumber] = useState("");
  const [firm, setFirm] = useState("");
  const keep = async (result: Result | null) => {
    const before = mine(at, item, "");
    const again = before ? { replaces: before, why: whyAgain(at, before) } : {};
    const words = { ...(number ? { number } : {}), ...(firm ? { firm } : {}) };
    const body = {
      kind: item.name ?? item.code,
      state: result ? ("in" as const) : ("asked for" as const),
      ...words,
      ...(result ? { result } : {}),
    };
    await record(at, item, "report", body, again);
    if (result !== "reject") onDone();
  };
  const field = (label: string, value: string, set: (text: string) => void) => (
    <label class="field">
      {label}
      <input autocomplete="off" value={value} onInput={(event) => set(event.currentTarget.value)} />
    </label>
  );
  return (
    <>
      {field("Report number", number, setNumber)}
      {field("Firm", firm, setFirm)}
      <div class="pair">
        <button type="button" class="button" disabled={!number} onClick={() => void keep("accept")}>
          Accept
        </button>
        <button type="button" class="button" disabled={!number} onClick={() => void keep("reject")}>
          Reject
        </button>
      </div>
      <button type="button" class="button" onClick={() => void keep(null)}>
        Asked for, not back yet
      </button>
    </>
  );
}
