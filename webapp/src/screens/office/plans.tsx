/** Plans: every revision, and the way in for a workbook or YAML, with everything that is wrong with it at once. */
import { useState } from "preact/hooks";
import type { components } from "../../api/schema";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { useLoaded } from "../../parts/use";
import { go, linkTo, me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { type ChosenFile, FileField } from "./file-field";

type Revision = components["schemas"]["PlanRevision"];
type Checked = components["schemas"]["Checked"];

export function PlansScreen() {
  const [says, setSays] = useState("");
  const plans = useLoaded(
    () =>
      callSignedIn<Revision[]>("/plans").catch((error: Error) => {
        setSays(error.message);
        return [];
      }),
    [],
  );
  const planner = me.value?.roles.includes("planner");
  return (
    <Frame wide>
      <div class="body">
        <h1>{t("plans")}</h1>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {planner && <Import />}
        <RevisionTable plans={plans ?? []} />
        {plans?.length === 0 && !says && <p class="soft">{t("plans-none")}</p>}
      </div>
    </Frame>
  );
}

function RevisionTable({ plans }: { plans: readonly Revision[] }) {
  const before = (plan: Revision) => plans.find((one) => one.code === plan.code && one.revision === plan.revision - 1);
  if (plans.length === 0) return null;
  return (
    <table class="office">
      <caption class="hidden-input">{t("plans")}</caption>
      <thead>
        <tr>
          <th scope="col">{t("plans-plan")}</th>
          <th scope="col">{t("plans-revision")}</th>
          <th scope="col">{t("plans-jobs")}</th>
          <th scope="col">{t("plans-out")}</th>
        </tr>
      </thead>
      <tbody>
        {plans.map((plan) => {
          const former = before(plan);
          return (
            <tr key={plan.hash}>
              <th scope="row">
                <a href={linkTo("plan", plan.hash)}>{plan.title}</a>
              </th>
              <td>
                {plan.revision}{" "}
                {former && <a href={linkTo("plan-compare", former.hash, plan.hash)}>{t("plans-compare")}</a>}
              </td>
              <td>{plan.jobs.join(", ")}</td>
              <td>
                <a href={`/api/v1/plans/${plan.hash}/file?form=xlsx`} download>
                  XLSX
                </a>{" "}
                <a href={`/api/v1/plans/${plan.hash}/file?form=yaml`} download>
                  YAML
                </a>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** A file is checked first; what it says stands there before it is published. */
function Import() {
  const [file, setFile] = useState<ChosenFile | null>(null);
  const [checked, setChecked] = useState<Checked | null>(null);
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const attempt = async (work: () => Promise<void>) => {
    setBusy(true);
    setSays("");
    await work().catch((error: Error) => setSays(error.message));
    setBusy(false);
  };
  const check = (chosen: ChosenFile) =>
    attempt(async () => {
      setFile(chosen);
      setChecked(null);
      setChecked(await callSignedIn<Checked>("/plans/check", { ...chosen, figures: {} }));
    });
  const publish = () =>
    attempt(async () => {
      const made = await callSignedIn<Revision>("/plans", file);
      go("plan", made.hash);
    });
  return (
    <section class="choices">
      <div class="office-pair">
        <FileField label={t("plans-import")} accept=".xlsx,.yaml,.yml" onFile={(chosen) => void check(chosen)} />
        <a class="button" href="/api/v1/plans/template.xlsx" download>
          {t("plans-template")}
        </a>
      </div>
      {busy && <p role="status">{t("plans-reading")}</p>}
      {says && <Notice kind="bad">{says}</Notice>}
      {checked && file && <Faults name={file.name} faults={checked.faults} />}
      {checked && checked.faults.length === 0 && (
        <Notice>
          <p>{t("plans-sound", { title: checked.title, steps: checked.steps, items: checked.items })}</p>
          <button type="button" class="button main" disabled={busy} onClick={() => void publish()}>
            {t("plans-publish")} <span>›</span>
          </button>
        </Notice>
      )}
    </section>
  );
}

/** All faults of a file at once, each with its place. */
export function Faults({ name, faults }: { name: string; faults: readonly string[] }) {
  if (faults.length === 0) return null;
  return (
    <Notice kind="bad">
      <p>
        <b>{t("office-faults", { count: faults.length, name })}</b>
      </p>
      <ol class="steps faults">
        {faults.map((fault) => (
          <li key={fault}>{fault}</li>
        ))}
      </ol>
    </Notice>
  );
}
