/** A weld pass, and an outside report. Stamp, procedure and lot are asked always, and remembered. */
import { useState } from "preact/hooks";
import { LAYERS, type Layer, type Result } from "../core/records";
import { useLoaded } from "../parts/use";
import { me } from "../state";
import { setSetting, setting } from "../store/db";
import { type EntryProps, mine, record, whyAgain } from "./item";

interface Remembered {
  stamp: string;
  procedure: string;
  lot: string;
}

const NOTHING: Remembered = { stamp: "", procedure: "", lot: "" };

export function WeldEntry({ at, item, onDone }: EntryProps) {
  const name = `weld ${me.value?.person}`;
  const kept = useLoaded(() => setting<Remembered>(name), [name]);
  const [typed, setTyped] = useState<Partial<Remembered>>({});
  const named = LAYERS.find((layer) => layer === item.code);
  const [layer, setLayer] = useState<Layer>(named ?? "cap");
  const now: Remembered = { ...NOTHING, stamp: me.value?.stamp ?? "", ...kept, ...typed };
  const keep = async () => {
    await setSetting(name, now);
    await record(at, item, "weld", { layer, welder: me.value?.person ?? "", ...now });
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
      <button
        type="button"
        class="button"
        disabled={!now.stamp || !now.procedure || !now.lot}
        onClick={() => void keep()}
      >
        Log the pass
      </button>
    </>
  );
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
