/** A weld pass as it stands on the screen: what is typed of it, what is remembered of the welder, and its saving. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import { isA, type Judged } from "../core/judging";
import { CHECKED, type Checked } from "../core/procedures";
import { type Bodies, LAYERS, type Layer, type Position } from "../core/records";
import { t, word } from "../language";
import { comma } from "../parts/customs";
import { tell } from "../parts/feedback";
import { today } from "../parts/qualified";
import { readValue, type Typed } from "../parts/spot";
import { useLoaded } from "../parts/use";
import { me } from "../state";
import { setSetting, setting } from "../store/db";
import { changes, type Person, people } from "../store/jobs";
import { record } from "./item";
import type { At } from "./step";
import { saved } from "./weld-logged";

interface Remembered {
  stamp: string;
  procedure: string;
  lot: string;
}

const NOTHING: Remembered = { stamp: "", procedure: "", lot: "" };
const WELDER = "welder";

interface Part {
  from: string;
  to: string;
  position: Position | "";
}

const WHOLE: Part = { from: "", to: "", position: "" };

export type PassNow = NonNullable<ReturnType<typeof usePass>>;

/** What is typed and remembered of a pass, and the saving of it; null until what is remembered has been read. */
export function usePass(at: At, item: Item) {
  const mine = me.value?.person ?? "";
  const everybody = useLoaded(people, [changes.value]);
  const last = useLoaded(async () => ({ id: await setting<string>(`welder of ${mine}`) }), [mine]);
  const [picked, setPicked] = useState("");
  const own = me.value?.roles.includes(WELDER) ? mine : last?.id;
  const welder = picked || own || "";
  const kept = useLoaded(async () => ({ of: welder, ...(await setting<Remembered>(`weld ${welder}`)) }), [welder]);
  const [typed, setTyped] = useState<Partial<Remembered>>({});
  const [layer, setLayer] = useState<Layer>(() => nextLayer(at, item));
  const [check, setCheck] = useState<Typed>({});
  const [part, setPart] = useState<Part>(WHOLE);
  if (!everybody || !last || kept?.of !== welder) return null;
  const person = everybody.get(welder);
  const { job } = at.job.progress;
  const { stamp, procedure: id, lot }: Remembered = { ...NOTHING, stamp: person?.stamp ?? "", ...kept, ...typed };
  const now = { stamp, procedure: id, lot };
  const procedures = Object.values(job.procedures).filter(({ withdrawn }) => !withdrawn || today() < withdrawn);
  const fault = faultOf(check);
  const procedure = procedures.find((one) => one.id === id.trim());
  const needed = { welder, stamp, procedure: procedures.length > 0 ? (procedure?.id ?? "") : id, lot };
  const missing = Object.entries(needed).flatMap(([name, value]) => (value.trim() ? [] : [name]));
  const pick = (one: Person) => {
    setPicked(one.id);
    setTyped({});
  };
  const log = async () => {
    await setSetting(`weld ${welder}`, now);
    await setSetting(`welder of ${mine}`, welder);
    const found = await logged(at, item, { layer, welder, ...now, ...readOf(check), ...filled(part) });
    if (!found) return "";
    setCheck({});
    setPart(WHOLE);
    setLayer(nextLayer(at, item));
    return found;
  };
  return {
    welder,
    person,
    welders: [...everybody.values()].filter(({ roles }) => roles.includes(WELDER)),
    pick,
    now,
    type: (some: Partial<Remembered>) => setTyped({ ...typed, ...some }),
    procedures,
    procedure,
    layer,
    setLayer,
    check,
    setCheck,
    part,
    setPart,
    fault,
    missing,
    ready: missing.length === 0 && fault === "",
    log,
  };
}

/** Saves the pass; the id of its record, '' where it was not saved, which every screen says. */
async function logged(at: At, item: Item, body: Bodies["weld"]): Promise<string> {
  const before = new Set(at.job.progress.records.keys());
  if (!(await saved(record(at, item, "weld", body)))) return "";
  const here = at.job.progress.piece(at.piece).records;
  const made = here.filter((one) => one.type === "weld" && !before.has(one.id)).at(-1);
  tell(made?.adverse ? "bad" : "good");
  return made?.id ?? "";
}

function filled(part: Part): { from?: string; to?: string; position?: Position } {
  const { from, to, position } = part;
  return { ...(from.trim() ? { from } : {}), ...(to.trim() ? { to } : {}), ...(position ? { position } : {}) };
}

function readOf(check: Typed): Partial<Record<Checked, string>> & { comma?: boolean } {
  const read = Object.entries(check).filter(([, text]) => text.trim());
  const written = comma() && read.some(([, text]) => text.includes(","));
  return { ...Object.fromEntries(read), ...(written ? { comma: true } : {}) };
}

/** The first value that is no number, with what is wrong with it. */
function faultOf(check: Typed): string {
  for (const [key] of CHECKED) {
    const { fault } = readValue(check[key] ?? "");
    if (fault) return t("weld-fault", { value: word("weld-value", key), fault });
  }
  return "";
}

/** The layer an item is named after, else the one that follows what was logged here last. */
function nextLayer(at: At, item: Item): Layer {
  const named = LAYERS.find((layer) => layer === item.code);
  if (named) return named;
  const own = at.job.progress.piece(at.piece);
  const here = own.records.filter((one) => one.place.step === at.step.code && one.place.item === item.code);
  const last = here.filter((one): one is Judged<"weld"> => isA(one, "weld") && own.standing.inForce(one)).at(-1);
  if (!last) return "root";
  return last.body.layer === "root" || last.body.layer === "hot" ? "fill" : last.body.layer;
}
