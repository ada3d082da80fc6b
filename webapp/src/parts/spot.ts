/** A spot check in words and numbers: what is typed, what the procedure asks, the arc energy, and the days to a lapse. */
import { type Decimal, NumberError, parse, shownShort } from "../core/numbers";
import {
  CHECKED,
  type Checked,
  ENERGY_UOM,
  holds,
  isOpen,
  mostEnergy,
  type Procedure,
  rangeOf,
  tooHot,
} from "../core/procedures";
import { arcEnergy, NoAnswerError } from "../core/welding";
import { comma, localized } from "./customs";
import { limitText } from "./notation";
import { reasonText } from "./reasons";

const DAY = 86_400_000;

/** What was typed in a spot check, by name. */
export type Typed = Partial<Record<Checked, string>>;
export type Sign = "in" | "out" | "";

export const UOMS = new Map<Checked, string>(CHECKED);

/** Whether a value typed is inside what the procedure asks; '' where it cannot be told. */
export function signOf(procedure: Procedure | undefined, name: Checked, typed: string | undefined): Sign {
  const { value } = readValue(typed ?? "");
  if (!procedure || value === null) return "";
  const range = rangeOf(procedure, name);
  if (isOpen(range)) return "";
  return holds(range, value) ? "in" : "out";
}

/** What a procedure asks of a value, in words; '' where it asks nothing. */
export function asked(procedure: Procedure | undefined, name: Checked): string {
  if (!procedure) return "";
  const range = rangeOf(procedure, name);
  return isOpen(range) ? "" : limitText({ ...range, reason: "" }, UOMS.get(name) ?? "");
}

export function mostEnergyText(procedure: Procedure | undefined): string {
  const most = procedure && mostEnergy(procedure);
  return most ? limitText({ lower: null, upper: most, reason: "" }, ENERGY_UOM) : "";
}

/** What is typed as a value, or what is wrong with it; neither where nothing is typed. */
export function readValue(typed: string): { value: Decimal | null; fault: string } {
  if (!typed.trim()) return { value: null, fault: "" };
  try {
    return { value: parse(typed, comma() && typed.includes(",")).value, fault: "" };
  } catch (error) {
    if (error instanceof NumberError) return { value: null, fault: reasonText(error.message) };
    throw error;
  }
}

/** The arc energy in kJ/in, where volts, amps and travel are all there, and whether the procedure allows it. */
export function energyOf(typed: Typed, procedure?: Procedure): { text: string; sign: Sign } | null {
  const [volts, amps, travel] = (["volts", "amps", "travel"] as const).map((key) => readValue(typed[key] ?? "").value);
  if (!volts || !amps || !travel) return null;
  const most = procedure ? mostEnergy(procedure) : null;
  try {
    const hot = most && tooHot({ volts, amps, travel }, most);
    const energy: Decimal = hot || arcEnergy(volts, amps, travel);
    const shown = hot ? shownShort(energy) : shownShort(energy.toDecimalPlaces(2));
    return { text: localized(shown), sign: most ? (hot ? "out" : "in") : "" };
  } catch (error) {
    if (error instanceof NoAnswerError) return null;
    throw error;
  }
}

/** Whole days from one day to another. */
export function daysUntil(day: string, from: string): number {
  return Math.round((Date.parse(day) - Date.parse(from)) / DAY);
}
