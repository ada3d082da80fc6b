/** The frame of a screen: where one is, what is unsent, and the way back. */
import type { ComponentChildren } from "preact";
import { locale, t } from "../language";
import { linkTo, me, route } from "../state";
import { heard, trouble, waiting } from "../sync/loop";

/** What is unsent, and the one thing about it that matters most; it leads to more of it. */
export function SentState() {
  const { records, photos, refused } = waiting.value;
  const count = records + photos;
  const time = heard.value ? t("sent-heard", { time: clock(heard.value) }) : t("sent-not-heard");
  const more = trouble.value ? t("sent-no-server") : refused > 0 ? t("sent-not-taken-in", { count: refused }) : time;
  return (
    <a href={linkTo("unsent")}>
      <b>{count === 0 ? t("sent-all") : t("sent-unsent", { count })}</b> · {more}
    </a>
  );
}

function clock(milliseconds: number): string {
  return new Date(milliseconds).toLocaleTimeString(locale(), { hour: "numeric", minute: "2-digit" });
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
        <a href={back ?? linkTo("")}>‹ {title || t("frame-my-work")}</a>
        <SentState />
        {me.value && !wide && route.value[0] !== "scan" && (
          <a class="to-scan" href={linkTo("scan")}>
            {t("frame-scan")}
          </a>
        )}
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
