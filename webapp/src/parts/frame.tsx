/** The frame of a screen: where one is, what is unsent, and the way back. */
import type { ComponentChildren } from "preact";
import { linkTo } from "../state";
import { heard, trouble, waiting } from "../sync/loop";

export function unsentText(): string {
  const { records, photos, refused } = waiting.value;
  const count = records + photos;
  const sent = count === 0 ? "all sent" : `${count} unsent`;
  return refused === 0 ? sent : `${sent} · ${refused} not taken in`;
}

interface FrameProps {
  title?: string;
  back?: string;
  wide?: boolean;
  children: ComponentChildren;
}

export function Frame({ title = "", back, wide = false, children }: FrameProps) {
  const time = heard.value ? new Date(heard.value).toTimeString().slice(0, 5) : "";
  return (
    <main class={wide ? "screen wide" : "screen"}>
      <header class="bar">
        <a href={back ?? linkTo("")}>‹ {title || "My work"}</a>
        <a href={linkTo("unsent")}>
          <b>{unsentText()}</b>
          {trouble.value ? " · no server" : time && ` · heard ${time}`}
        </a>
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
