/** Which gauge a sticker names, and whether it may be taken. */
import { t } from "../language";
import { readGauge } from "../scan/gauge";
import type { Gauge } from "../store/jobs";
import { calendarDay } from "./customs";

/** Whether the last day of a calibration is over. day: today, as 2026-11-25. */
export function ranOut(gauge: Pick<Gauge, "due">, day: string): boolean {
  return Boolean(gauge.due && day > gauge.due);
}

/** The gauge whose sticker was read and that fits, or what is wrong with it, in words. */
export function gaugeOfSticker(
  text: string,
  kind: string,
  shelf: readonly Gauge[],
  day: string,
): { gauge: Gauge } | { says: string } {
  const id = readGauge(text);
  if (id === null) return { says: t("gauge-not-a-sticker") };
  const gauge = shelf.find((one) => one.id.toUpperCase() === id);
  if (!gauge) return { says: t("gauge-unknown", { id }) };
  const { name } = gauge;
  if (gauge.kind !== kind) return { says: t("gauge-wrong-kind", { name, kind: gauge.kind, asked: kind }) };
  return ranOut(gauge, day)
    ? { says: t("gauge-scanned-ran-out", { name, due: calendarDay(gauge.due ?? "") }) }
    : { gauge };
}
