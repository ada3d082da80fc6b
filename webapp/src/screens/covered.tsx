/** What a signature covers, in the words and numbers of the records. */
import { listed, t } from "../language";
import { useLoaded } from "../parts/use";
import { people } from "../store/jobs";
import { saysOf } from "./recorded";
import type { At } from "./step";

/** In this order they are counted; what is none of them counts as what was decided. */
const COUNTED = ["reading", "visual", "weld", "report", "text", "photo"];

export function Covered({ at, ids }: { at: At; ids: readonly string[] }) {
  const names = useLoaded(people, []);
  const items = new Map(at.step.items.map((item) => [item.code, item]));
  const { standing } = at.job.progress.piece(at.piece);
  const records = ids.flatMap((id) => at.job.progress.records.get(id) ?? []);
  return (
    <div>
      <p>{t("sign-covers", { what: counted(records.map((one) => one.type)) })}</p>
      <details class="covered">
        <summary>{t("sign-covered", { count: records.length })}</summary>
        <ul class="list">
          {records.map((one) => (
            <li key={one.id} class="row">
              <span class="grow">
                {[items.get(one.place.item)?.name ?? one.place.item, one.place.station].filter(Boolean).join(" · ")}
                <br />
                <span class="small soft">{names?.get(one.payload.by)?.name}</span>
              </span>
              <b class={["void", "replaced"].includes(standing.of(one)) ? "lined-out" : ""}>{saysOf(one)}</b>
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

/** `4 readings, 1 photo`: how many there are of each. */
function counted(types: readonly string[]): string {
  const groups = [...COUNTED, "decided"].map((group) => {
    const count = types.filter((type) => (COUNTED.includes(type) ? type : "decided") === group).length;
    return count > 0 ? t(`sign-count-${group}`, { count }) : "";
  });
  return listed(groups.filter(Boolean));
}
