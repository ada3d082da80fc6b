/** Material trace: where a heat or lot number went, and which numbers are in a piece. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo } from "../../state";
import { type Schemas, useAsked } from "./asking";
import { day } from "./jobs";

type Use = Schemas["Use"];
type MadeOf = Schemas["MadeOf"];

export function TraceScreen({ job, piece }: { job: string; piece: string }) {
  return (
    <Frame wide title={t("jobs")} back={job ? linkTo("jobs", job) : linkTo("jobs")}>
      <div class="body">
        <h1>{t("trace")}</h1>
        {piece ? <OfPiece job={job} piece={piece} /> : <Search />}
      </div>
    </Frame>
  );
}

function Search() {
  const [typed, setTyped] = useState("");
  const [asked, setAsked] = useState("");
  return (
    <>
      <form
        class="desk-pair"
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(typed.trim());
        }}
      >
        <label class="field">
          {t("trace-number")}
          <input
            type="search"
            value={typed}
            autocomplete="off"
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="button main" disabled={!typed.trim()}>
          {t("trace-find")} <span>›</span>
        </button>
      </form>
      {asked ? <Uses key={asked} heat={asked} /> : <p class="soft">{t("trace-how")}</p>}
    </>
  );
}

const INTO = {
  "part of": "trace-part-of",
  "joined by": "trace-joined-by",
  "welded with": "trace-welded-with",
} as const;

function Uses({ heat }: { heat: string }) {
  const { found: uses, says } = useAsked<Use[]>(`/trace?heat=${encodeURIComponent(heat)}`, []);
  if (says) return <Notice kind="bad">{t("office-offline", { says })}</Notice>;
  if (!uses) return <p role="status">{t("trace-looking")}</p>;
  if (uses.length === 0) return <p role="status">{t("trace-none", { heat })}</p>;
  return (
    <section>
      <h2 aria-live="polite">{t("trace-found", { heat, count: uses.length })}</h2>
      <ul class="list">
        {uses.map((use) => (
          <li key={use.record} class="traced">
            <p>
              <a href={linkTo("trace", use.job, use.piece)}>
                <b>{use.mark}</b> {use.kind}
              </a>{" "}
              · <a href={linkTo("jobs", use.job)}>{t("frame-job", { job: use.job })}</a>
            </p>
            <Numbered line={use} />
            {use.into.length > 0 && (
              <p>
                {t("trace-into")}{" "}
                {use.into.map((one, place) => (
                  <span key={one.piece}>
                    {place > 0 && ", "}
                    <a href={linkTo("trace", use.job, one.piece)}>{one.mark}</a> {one.kind} (
                    {t(INTO[one.how as keyof typeof INTO] ?? "trace-part-of")})
                  </span>
                ))}
              </p>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What was recorded, by whom and when; lined out where it does not count any more. */
function Numbered({ line }: { line: Use | MadeOf }) {
  const counts = line.standing === "in force";
  return (
    <p class="small">
      {line.what}: <b class={counts ? "" : "lined-out"}>{line.number}</b>{" "}
      <span class="soft">
        {[
          line.count > 1 && t("trace-records", { count: line.count }),
          !counts && word("standing", line.standing),
          line.by,
          day(line.at),
        ]
          .filter(Boolean)
          .join(" · ")}
      </span>
    </p>
  );
}

const HOW = {
  itself: "trace-itself",
  part: "trace-a-part",
  joined: "trace-joined",
  joint: "trace-a-joint",
  filler: "trace-filler",
} as const;

function OfPiece({ job, piece }: { job: string; piece: string }) {
  const path = `/jobs/${encodeURIComponent(job)}/trace/${encodeURIComponent(piece)}`;
  const { found: lines, says } = useAsked<MadeOf[]>(path, []);
  const mark = piece.startsWith(`${job}.`) ? piece.slice(job.length + 1) : piece;
  return (
    <section>
      <h2>{t("trace-in-piece", { mark, job })}</h2>
      {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
      {lines?.length === 0 && <p class="soft">{t("trace-nothing-in")}</p>}
      <ul class="list">
        {lines?.map((line) => (
          <li key={line.record} class="traced">
            <p>
              <a href={linkTo("trace", job, line.piece)}>
                <b>{line.mark}</b> {line.kind}
              </a>{" "}
              <span class="soft">({t(HOW[line.how as keyof typeof HOW] ?? "trace-itself")})</span>
            </p>
            <Numbered line={line} />
          </li>
        ))}
      </ul>
      <p>
        <a href={linkTo("trace")}>{t("trace-another")}</a>
      </p>
    </section>
  );
}
