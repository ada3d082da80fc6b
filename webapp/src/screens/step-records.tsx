/** What was recorded at a step, as found and as left: worked out only when somebody asks for it. */
import type { Judged } from "../core/judging";
import { isA } from "../core/judging";
import type { Bodies } from "../core/records";
import { t, word } from "../language";
import { clockTime } from "../parts/customs";
import { Mark, type Shape } from "../parts/marks";
import { shapeOf } from "../parts/reading";
import { reasonText } from "../parts/reasons";
import { StoredPhoto } from "../parts/stored-photo";
import type { OpenJob, Person } from "../store/jobs";

interface StepRecordsProps {
  job: OpenJob;
  piece: string;
  code: string;
  names: ReadonlyMap<string, Person> | undefined;
}

export function StepRecords({ job, piece, code, names }: StepRecordsProps) {
  const own = job.progress.piece(piece);
  const step = job.progress.job.steps.get(code);
  const here = own.signing(code).here;
  const items = new Map(step?.items.map((item) => [item.code, item.name ?? item.code]));
  return (
    <ul class="list records" aria-label={t("piece-records-of", { step: step?.name ?? code })}>
      {here.map((one) => {
        const standing = own.standing.of(one);
        const item = items.get(one.place.item) ?? "";
        const place = item && one.place.station ? t("piece-record-at", { item, station: one.place.station }) : item;
        return (
          <li key={one.id} class="row">
            <Mark shape={standing === "in force" ? shapeOfRecord(one) : "open"} />
            <span class="grow">
              {place && <span class="small">{place}</span>}
              {place && <br />}
              <span class={standing === "in force" ? "" : "lined-out"}>
                <Said one={one} />
              </span>
              <br />
              <span class="small soft">
                {[
                  ...wordsOf(one, standing),
                  t("piece-record-by", {
                    name: names?.get(one.payload.by)?.name ?? one.payload.by,
                    at: clockTime(one.payload.at),
                  }),
                ].join(" · ")}
              </span>
            </span>
          </li>
        );
      })}
    </ul>
  );
}

function shapeOfRecord(one: Judged): Shape {
  if (one.type === "reading") return shapeOf(one.verdict.word);
  if (one.adverse) return "out";
  return one.good ? "in" : "started";
}

/** Why it was made again, how it stands, and why it is judged as it is: only what there is to say. */
function wordsOf(one: Judged, standing: string): string[] {
  const { why } = one.payload;
  const note = (one.body as { note?: string | null }).note ?? "";
  const said = [
    one.type === "reading" ? word("verdict", one.verdict.word) : "",
    reasonText(one.verdict.reason),
    why ? word("why", why) : "",
    standing === "in force" ? "" : word("standing", standing),
    note,
  ];
  return said.filter(Boolean);
}

/** What a record says, by its type. */
function Said({ one }: { one: Judged }) {
  if (isA(one, "reading")) {
    return (
      <>
        <b>{one.body.entered}</b> {one.body.uom}
      </>
    );
  }
  if (isA(one, "photo")) return <StoredPhoto sha256={one.body.sha256} says={t("piece-record-photo")} />;
  return <b class="begins">{said(one)}</b>;
}

function said(one: Judged): string {
  if (isA(one, "visual")) return word("result", one.body.result);
  if (isA(one, "text")) return one.body.value;
  if (isA(one, "note")) return one.body.text;
  if (isA(one, "weld")) {
    return t("piece-record-weld", { layer: word("layer", one.body.layer), stamp: one.body.stamp });
  }
  if (isA(one, "report")) return saidOfReport(one.body);
  if (isA(one, "sign-off")) return t("piece-record-sign-off", { party: word("party-short", one.body.party) });
  if (isA(one, "call")) return saidOfCall(one.body);
  if (isA(one, "disposition")) {
    const { disposition, reason } = one.body;
    return t("piece-record-disposition", { disposition: word("disposition", disposition), reason });
  }
  if (isA(one, "point")) {
    const { point, party } = one.body;
    return t("piece-record-point", { point: word("point", point), party: word("party-short", party) });
  }
  return word("type", one.type);
}

function saidOfReport({ number, state }: Bodies["report"]): string {
  const said = { number: number ?? "", state: word("report-state", state) };
  return t(number ? "piece-record-report" : "piece-record-report-bare", said);
}

function saidOfCall({ party, answer, when }: Bodies["call"]): string {
  const short = word("party-short", party);
  if (answer) return t("piece-record-answer", { party: short, answer: word("answer", answer) });
  return t("piece-record-call", { party: short, when: clockTime(when ?? "") });
}
