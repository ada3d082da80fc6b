/** Marks of state: each its own shape, beside its own word; colour only repeats what they say. */

import { t } from "../language";

export type Shape = "in" | "out" | "close" | "open" | "started" | "blocked" | "waiting";

export function Mark({ shape }: { shape: Shape }) {
  return (
    <svg class="mark-shape" viewBox="0 0 32 32" role="img" aria-label={t(`mark-${shape}`)}>
      <Drawing shape={shape} />
    </svg>
  );
}

function Drawing({ shape }: { shape: Shape }) {
  const ink = "var(--ink)";
  switch (shape) {
    case "in":
      return (
        <>
          <circle cx="16" cy="16" r="15" fill="var(--in)" />
          <path d="M9 16.5l5 5 9-10" fill="none" stroke="var(--in-ground)" stroke-width="3" />
        </>
      );
    case "out":
      return (
        <>
          <rect x="2" y="2" width="28" height="28" fill="var(--out)" />
          <path d="M10 10l12 12M22 10L10 22" stroke="var(--out-ground)" stroke-width="3" />
        </>
      );
    case "close":
      return (
        <>
          <path d="M16 1l15 15-15 15L1 16z" fill="var(--close)" />
          <text x="16" y="22" text-anchor="middle" font-size="17" font-weight="700" fill="var(--close-ground)">
            ?
          </text>
        </>
      );
    case "started":
      return (
        <>
          <circle cx="16" cy="16" r="13.5" fill="none" stroke={ink} stroke-width="3" />
          <path d="M16 16V5a11 11 0 0 1 0 22z" fill={ink} />
        </>
      );
    case "waiting":
      return <path d="M5 16h15M14 8l9 8-9 8M27 5v22" fill="none" stroke={ink} stroke-width="3" />;
    case "blocked":
      return <path d="M10 1h12l9 9v12l-9 9H10l-9-9V10z" fill={ink} />;
    default:
      return <circle cx="16" cy="16" r="13.5" fill="none" stroke={ink} stroke-width="3" />;
  }
}

export function StopSign() {
  return (
    <svg viewBox="0 0 100 100" aria-hidden="true">
      <path d="M30 3h40l27 27v40L70 97H30L3 70V30z" fill="var(--on-stop)" />
      <text x="50" y="59" text-anchor="middle" font-size="26" font-weight="700" fill="var(--stop)">
        {t("stop-sign")}
      </text>
    </svg>
  );
}
