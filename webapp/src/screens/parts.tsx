/** Every part in every state, in development only: /#/parts */
import { useState } from "preact/hooks";
import { type Limits, notKnown } from "../core/limits";
import { Decimal } from "../core/numbers";
import { IN, judge, OUT, type Verdict } from "../core/verdict";
import { FedLines } from "../parts/fed-lines";
import { Frame, Notice } from "../parts/frame";
import { GaugeDoubts } from "../parts/gauge-line";
import { Keypad } from "../parts/keypad";
import { LimitBar } from "../parts/limit-bar";
import { Mark, type Shape } from "../parts/marks";
import { NotSavedNote } from "../parts/not-saved";
import { ReadingRow, VerdictLine } from "../parts/reading";
import { type Here, OpenPlace, StationLine, StationPicker } from "../parts/stations";

const SHAPES: Shape[] = ["in", "out", "close", "open", "started", "waiting", "blocked"];
const LIMITS: Limits = { lower: new Decimal("5.875"), upper: new Decimal("6.125"), reason: "" };
const EIGHT = ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"];
const TWELVE = ["12", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"];

function recorded(names: readonly string[]): Map<string, Here> {
  return new Map(names.slice(0, 3).map((name, at) => [name, { value: at === 1 ? "9/32" : "3/32", good: at !== 1 }]));
}

function place(names: readonly string[], seen_from = "") {
  return {
    code: "gap",
    kind: "measure" as const,
    stations: { names, seen_from, style: names[0] === "12" ? "clock" : "names" },
  };
}

function verdicts(): Verdict[] {
  return [
    judge(new Decimal("6"), LIMITS),
    judge(new Decimal("6.2"), LIMITS),
    {
      ...judge(new Decimal("6.12"), LIMITS),
      word: "too close to call",
      reason: "nearer to the limit than the gauge can tell",
    },
    judge(new Decimal("6"), notKnown("no D_shell")),
  ];
}

/** What stands on the screen of a measurement. */
function Measuring() {
  const [typed, setTyped] = useState("5/32");
  const [station, setStation] = useState("4:30");
  const holes = { code: "hole", kind: "measure" as const, stations: { least: 13, word: "hole" } };
  const fed = { step: { code: "s" }, item: { code: "oval", name: "Out of round", uom: "in" }, station: "front" };
  const found = (word: typeof IN | typeof OUT | "open", value: string | null) => ({
    value: value === null ? null : new Decimal(value),
    verdict: { word, margin: null, reason: "", probability: null },
  });
  const lines = [found(IN, "0.0625"), found(OUT, "0.3"), found("open", null)];
  return (
    <>
      <h2>Stations</h2>
      {[EIGHT, ["12", "3", "6", "9"], TWELVE, ["1", "2", "3", "4", "5"], ["front 0", "front 90", "rear 0"]].map(
        (names) => (
          <StationPicker
            key={names.join()}
            item={place(names, names.length === 8 ? "front end" : "")}
            recorded={recorded(names)}
            station={station}
            onStation={setStation}
          />
        ),
      )}
      <StationLine item={place(EIGHT)} station={station} onChange={() => {}} />
      {(["keys", "letters", ""] as const).map((typing) => (
        <OpenPlace
          key={typing}
          item={holes}
          recorded={recorded(["14-7", "14-8", "2-1"])}
          station="14-7"
          typing={typing}
          onTyping={() => {}}
          onStation={() => {}}
        />
      ))}
      <h2>Reading</h2>
      <ReadingRow typed={typed} uom="in" other="mm" beside="0.15625" onOther={() => {}} />
      {verdicts().map((verdict) => (
        <VerdictLine key={`${verdict.word} ${verdict.margin}`} verdict={verdict} own="in" uom="in" />
      ))}
      {["5.84375", "6", "6.2"].map((value) => (
        <LimitBar key={value} limits={LIMITS} value={new Decimal(value)} uom="in" />
      ))}
      <FedLines
        fed={lines.map(
          (one, at) =>
            ({ ...fed, station: `plane ${at}`, found: one }) as unknown as Parameters<
              typeof FedLines
            >[0]["fed"][number],
        )}
      />
      <GaugeDoubts
        gauge={{ id: "g", kind: "k", name: "Taper gauge", uom: "in", due: "2026-03-06" }}
        coarse="uncertainty over a quarter of the tolerance"
      />
      <Keypad typed={typed} onType={setTyped} onSave={() => {}} canSave inches />
      <Keypad typed={typed} onType={setTyped} onSave={() => {}} canSave={false} inches={false} point="," />
      <Keypad
        typed={typed}
        onType={setTyped}
        onSave={() => {}}
        canSave
        inches={false}
        saveWord="Reading"
        onLetters={() => {}}
      />
    </>
  );
}

export function Parts() {
  return (
    <Frame title="Parts">
      <div class="body">
        <h1>Parts</h1>
        <div class="stations">
          {SHAPES.map((shape) => (
            <Mark key={shape} shape={shape} />
          ))}
        </div>
        <Notice>A notice</Notice>
        <Notice kind="care">A caution</Notice>
        <Notice kind="bad">An error that says what to do</Notice>
        <button type="button" class="button">
          Button
        </button>
        <button type="button" class="button main">
          <span>
            The one thing to do <span class="small">3 of 5 done</span>
          </span>
          <span>›</span>
        </button>
        <button type="button" class="button way">
          A way on <span>›</span>
        </button>
        <button type="button" class="button" disabled>
          Not now
        </button>
        <NotSavedNote says="This phone's storage is full. Save what is unsent to a file." onClose={() => {}} />
        <Measuring />
      </div>
    </Frame>
  );
}
