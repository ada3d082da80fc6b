/** What was recorded at a flag's place, as found and as left, and what else at its step. */
import type { Disposition } from "../../core/records";
import { t, word } from "../../language";
import { clockTime } from "../../parts/customs";
import type { OpenedFlag } from "./asking";
import { saidAbout } from "./words";

type Told = OpenedFlag["history"][number] & { readonly item?: string };

const LINED_OUT: readonly string[] = ["void", "replaced"];

/** What a record says, in the language here; texts of people as they are. */
function saysOf({ type, says, flag }: Told): string {
  if (type === "disposition") return saidAbout(flag, says as Disposition);
  if (type === "visual" || type === "report") return word("result", says);
  return says;
}

function Line({ one, here }: { one: Told; here: boolean }) {
  const says = saysOf(one);
  const place = [one.item, one.station].filter(Boolean).join(" ");
  const more = [
    one.flag ? t("review-history-about", { kind: word("kind", one.flag) }) : word("verdict", one.verdict),
    word("why", one.why),
    one.standing === "in force" ? "" : word("standing", one.standing),
    one.note,
  ];
  return (
    <li data-here={here || undefined}>
      <span class={LINED_OUT.includes(one.standing) ? "lined-out" : ""}>
        {place} <b>{says || word("type", one.type)}</b>
      </span>{" "}
      {says && <span class="small soft">{word("type", one.type)}</span>}
      {here && <span class="small"> · {t("review-history-here")}</span>}
      <small>{[...more, one.by, clockTime(one.at)].filter(Boolean).join(" · ")}</small>
    </li>
  );
}

export function History({ flag }: { flag: OpenedFlag }) {
  if (flag.history.length === 0) return null;
  return (
    <section>
      <h3>{t("review-history")}</h3>
      <ul class="told">
        {flag.history.map((one) => (
          <Line key={one.id} one={one} here={one.id === flag.record} />
        ))}
      </ul>
    </section>
  );
}

const FIRST = 6;

/** The newest of what else was recorded at the step; the rest when it is asked for. */
export function Others({ flag }: { flag: OpenedFlag }) {
  const others = [...flag.others].reverse();
  if (others.length === 0) return null;
  const [first, rest] = [others.slice(0, FIRST), others.slice(FIRST)];
  return (
    <section>
      <h3>{t("review-others")}</h3>
      <ul class="told">
        {first.map((one) => (
          <Line key={one.id} one={one} here={false} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details class="rest">
          <summary>{t("review-others-more", { count: rest.length })}</summary>
          <ul class="told">
            {rest.map((one) => (
              <Line key={one.id} one={one} here={false} />
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
