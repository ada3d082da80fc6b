/** Every part in every state, in development only: /#/parts */
import { useState } from "preact/hooks";
import { Decimal } from "../core/numbers";
import { Frame, Notice } from "../parts/frame";
import { Keypad } from "../parts/keypad";
import { LimitBar } from "../parts/limit-bar";
import { Mark, type Shape } from "../parts/marks";
import { NotSavedNote } from "../parts/not-saved";

const SHAPES: Shape[] = ["in", "out", "close", "open", "started", "waiting", "blocked"];

export function Parts() {
  const [typed, setTyped] = useState("5/32");
  const limits = { lower: new Decimal("5.875"), upper: new Decimal("6.125"), reason: "" };
  return (
    <Frame title="Parts">
      <div class="body">
        <h1>Parts</h1>
        <div class="stations">
          {SHAPES.map((shape) => (
            <Mark key={shape} shape={shape} />
          ))}
        </div>
        {["5.84375", "6", "6.2"].map((value) => (
          <LimitBar key={value} limits={limits} value={new Decimal(value)} uom="in" />
        ))}
        <Notice>A notice</Notice>
        <Notice kind="care">A caution</Notice>
        <Notice kind="bad">An error that says what to do</Notice>
        <button type="button" class="button">
          Button
        </button>
        <button type="button" class="button main">
          The one thing to do <span>›</span>
        </button>
        <button type="button" class="button" disabled>
          Not now
        </button>
        <NotSavedNote says="This phone's storage is full. Save what is unsent to a file." onClose={() => {}} />
        <Keypad typed={typed} onType={setTyped} onSave={() => {}} canSave inches />
      </div>
    </Frame>
  );
}
