/** The frame of a screen: where one is, what is unsent, and the way back. */
import type { ComponentChildren } from "preact";
import { linkTo } from "../state";
import { heard, trouble, waiting } from "../sync/loop";

/** What is unsent, and the one thing about it that matters most; it leads to more of it. */
export function SentState() {
  const { records, photos, refused } = waiting.value;
  const count = records + photos;
  const time = heard.value ? `heard ${new Date(heard.value).toTimeString().slice(0, 5)}` : "not heard yet";
  const more = trouble.value ? "no server" : refused > 0 ? `${refused} not taken in` : time;
  return (
    <a href={linkTo("unsent")}>
      <b>{count === 0 ? "all sent" : `${count} unsent`}</b> · {more}
    </a>
  );
}

interface FrameProps {
  title?: string;
  back?: string;
  wide?: boolean;
  children: ComponentChildren;
}

export function Frame({ title = "", back, wide = false, children }: FrameProps) {
  return (
    <main class={wide ? "screen wide" : "screen"}>
      <header class="bar">
        <a href={back ?? linkTo("")}>‹ {title || "My work"}</a>
        <SentState />
      </header>
      {children}
    </main>
  );
}

export function Notice({ kind = "", children }: { kind?: "" | "bad" | "care"; children: ComponentChildren }) {
  return (
    <div class={`notice ${kind}`} role={kind === "bad" ? "alert" : "status"}>
      {children}
    </div>
  );
}
