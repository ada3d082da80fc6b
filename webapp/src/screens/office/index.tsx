/** The way to the office's desk screens, for who may use them. */
import { t } from "../../language";
import { Frame } from "../../parts/frame";
import { linkTo, me } from "../../state";

interface Way {
  readonly to: string;
  readonly name: string;
  readonly means: string;
  readonly for: readonly string[];
}

const DESKS = ["planner", "supervisor"];
const WAYS: readonly Way[] = [
  { to: "jobs", name: "jobs", means: "office-jobs-means", for: DESKS },
  { to: "new-job", name: "jobs-new", means: "office-new-job-means", for: ["planner"] },
  { to: "plans", name: "plans", means: "office-plans-means", for: DESKS },
  { to: "people", name: "people", means: "office-people-means", for: DESKS },
  { to: "procedures", name: "procedures", means: "office-procedures-means", for: DESKS },
  { to: "trends", name: "trends", means: "office-trends-means", for: DESKS },
  { to: "gauges", name: "gauges", means: "office-gauges-means", for: DESKS },
];

export function OfficeScreen() {
  const roles = me.value?.roles ?? [];
  return (
    <Frame wide>
      <div class="body">
        <h1>{t("office")}</h1>
        <nav aria-label={t("office")}>
          <ul class="list">
            {WAYS.filter((way) => way.for.some((role) => roles.includes(role))).map((way) => (
              <li key={way.to}>
                <a class="row" href={linkTo(way.to)}>
                  <span class="grow">
                    <b>{t(way.name)}</b>
                    <br />
                    <span class="small soft">{t(way.means)}</span>
                  </span>
                  ›
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <p class="small soft">{t("office-tags-means")}</p>
      </div>
    </Frame>
  );
}
