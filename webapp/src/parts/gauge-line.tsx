/** The gauge: picked once and kept, its calibration, and its sticker to scan. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import { t } from "../language";
import { setSetting, setting } from "../store/db";
import { type Gauge, gauges } from "../store/jobs";
import { calendarDay } from "./customs";
import { tell } from "./feedback";
import { Notice } from "./frame";
import { gaugeOfSticker, ranOut } from "./gauge-sticker";
import { lazily } from "./lazily";
import { reasonText } from "./reasons";
import { useLoaded } from "./use";

const Finder = lazily<{ onText: (text: string) => void }>(() =>
  import("../scan/finder").then((module) => module.Finder),
);

function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

export interface Picked {
  gauge: Gauge | undefined;
  fitting: readonly Gauge[];
  shelf: readonly Gauge[];
  pick: (id: string) => void;
}

/** The gauge picked once for its kind, and kept; at first one that has not run out. */
export function useGauge(item: Item): Picked {
  const kind = item.gauge ?? "";
  const shelf = useLoaded(gauges, []) ?? [];
  const fitting = shelf.filter((gauge) => gauge.kind === kind);
  const [picked, setPicked] = useState<string | null>(null);
  const kept = useLoaded(() => setting<string>(`gauge ${kind}`), [kind]);
  const found = (id: string | null | undefined) => fitting.find((one) => one.id === id);
  const gauge = found(picked) ?? found(kept) ?? fitting.find((one) => !ranOut(one, today())) ?? fitting[0];
  const pick = (id: string) => {
    setPicked(id);
    void setSetting(`gauge ${kind}`, id);
  };
  return { gauge, fitting, shelf, pick };
}

/** What must be seen before anything is read with it. coarse: why it is too coarse for the limits, '' where it is not. */
export function GaugeDoubts({ gauge, coarse }: { gauge: Gauge | undefined; coarse: string }) {
  return (
    <>
      {gauge && ranOut(gauge, today()) && (
        <Notice kind="care">{t("gauge-ran-out", { due: calendarDay(gauge.due ?? "") })}</Notice>
      )}
      {coarse && <Notice kind="care">{t("gauge-coarse", { reason: reasonText(coarse) })}</Notice>}
    </>
  );
}

/** The gauge that is taken, in one line. */
export function GaugeNow({ gauge }: { gauge: Gauge | undefined }) {
  if (!gauge) return <p class="verdict-room" />;
  const values = { name: gauge.name, due: calendarDay(gauge.due ?? "") };
  return <p class="verdict-room small soft">{t(gauge.due ? "gauge-now" : "gauge-now-no-day", values)}</p>;
}

export function GaugeLine({ kind, picked }: { kind: string; picked: Picked }) {
  const { gauge, fitting } = picked;
  const [scanning, setScanning] = useState(false);
  if (!kind) return <p class="small soft">{t("gauge-none-asked")}</p>;
  return (
    <section class="gauge">
      {gauge ? (
        <label class="field small">
          {gauge.due ? t("gauge-calibrated", { due: calendarDay(gauge.due) }) : t("gauge-no-day")}
          <select value={gauge.id} onChange={(event) => picked.pick(event.currentTarget.value)}>
            {fitting.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <Notice kind="care">{t("gauge-none", { kind })}</Notice>
      )}
      <button type="button" class="button" aria-expanded={scanning} onClick={() => setScanning(!scanning)}>
        {t(scanning ? "gauge-scan-stop" : "gauge-scan")}
      </button>
      {scanning && <StickerScan kind={kind} picked={picked} onPicked={() => setScanning(false)} />}
    </section>
  );
}

/** Until the sticker of a gauge that fits is in the frame. */
function StickerScan({ kind, picked, onPicked }: { kind: string; picked: Picked; onPicked: () => void }) {
  const [says, setSays] = useState("");
  const found = (text: string) => {
    const read = gaugeOfSticker(text, kind, picked.shelf, today());
    if ("says" in read) {
      tell("bad");
      setSays(read.says);
      return;
    }
    tell("found");
    picked.pick(read.gauge.id);
    onPicked();
  };
  return (
    <>
      <Finder onText={found} />
      {says ? <Notice kind="bad">{says}</Notice> : <p class="small">{t("gauge-scan-hold")}</p>}
    </>
  );
}
