/** My work: scan, what waits for me, and the jobs. */
import { t, word } from "../language";
import { SentState } from "../parts/frame";
import { lazily } from "../parts/lazily";
import { useLoaded } from "../parts/use";
import { go, linkTo, lock, me } from "../state";
import { changes, jobList, shopName } from "../store/jobs";

const Floor = lazily(() => import("./floor").then((module) => module.FloorSections));

const Kept = lazily(() => import("./installing").then((module) => module.KeptTold));

const AT_DESKS: readonly string[] = ["supervisor", "planner", "engineer", "foreman", "authorized inspector"];

const AT_OFFICE: readonly string[] = ["supervisor", "planner"];

export function Work() {
  const who = me.value;
  const shop = useLoaded(shopName, [changes.value]);
  const jobs = useLoaded(jobList, [changes.value]);
  const desk = who?.roles.some((role) => AT_DESKS.includes(role));
  return (
    <main class="screen">
      <header class="bar">
        <span class="shop">{shop}</span>
        <SentState />
      </header>
      <div class="body">
        <button type="button" class="button main scan-first" onClick={() => go("scan")}>
          {t("work-scan")} <span>›</span>
        </button>
        <div>
          <h1>{who?.name}</h1>
          <p class="soft">{who?.roles.map((role) => word("role", role)).join(", ")}</p>
        </div>
        {desk && (
          <a class="button" href={linkTo("jobs")}>
            {t("work-board")}
          </a>
        )}
        {desk && (
          <a class="button" href={linkTo("review")}>
            {t("work-review")}
          </a>
        )}
        {desk && (
          <a class="button" href={linkTo("trends")}>
            {t("trends")}
          </a>
        )}
        {who?.roles.some((role) => AT_OFFICE.includes(role)) && (
          <a class="button" href={linkTo("office")}>
            {t("office")}
          </a>
        )}
        <Kept />
        <Floor />
        <section>
          <h2>{t("work-jobs")}</h2>
          {jobs?.length === 0 && <p class="soft">{t("work-no-jobs")}</p>}
          <ul class="list">
            {jobs?.map((job) => (
              <li key={job.id}>
                <a class="row" href={linkTo("job", job.id)}>
                  <span class="grow">
                    <b>{job.id}</b>
                    <br />
                    <span class="small soft">{job.title}</span>
                  </span>
                  ›
                </a>
              </li>
            ))}
          </ul>
        </section>
        <nav class="quiet">
          <a href={linkTo("settings")}>{t("settings")}</a>
          <a href={linkTo("pin")}>{t("work-pin")}</a>
          <a href={linkTo("badge")}>{t("work-badge")}</a>
          <button type="button" class="link" onClick={lock}>
            {t("work-lock")}
          </button>
        </nav>
      </div>
    </main>
  );
}
