/** One revision of a plan, and the next one in the making: steps and items in order, each limit worked out at once. */
import { useEffect, useState } from "preact/hooks";
import type { components } from "../../api/schema";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { useLoaded } from "../../parts/use";
import { go, linkTo, me } from "../../state";
import { openJob } from "../../store/jobs";
import { callSignedIn } from "../../sync/loop";
import { contentOf } from "./file-field";
import { differences, type PlanSource, type PlanStep } from "./plan-diff";
import { ItemForm, StepForm } from "./plan-forms";

type Written = components["schemas"]["Written"];
type Checked = components["schemas"]["Checked"];
type Revision = components["schemas"]["PlanRevision"];

const PAUSE = 400;

export function PlanEditor({ hash }: { hash: string }) {
  const plan = useLoaded(() => callSignedIn<Written>(`/plans/${hash}`).catch((error: Error) => error), [hash]);
  if (plan === undefined) return null;
  if (plan instanceof Error) {
    return (
      <Frame wide title={t("plans")} back={linkTo("plans")}>
        <div class="body">
          <Notice kind="bad">{t("office-offline", { says: plan.message })}</Notice>
        </div>
      </Frame>
    );
  }
  return <Editing key={hash} plan={plan} />;
}

function Editing({ plan }: { plan: Written }) {
  const first = plan.source as unknown as PlanSource;
  const [source, setSource] = useState(first);
  const [at, setAt] = useState<[number, number | null]>([0, null]);
  const [job, setJob] = useState("");
  const [says, setSays] = useState("");
  const mayEdit = me.value?.roles.includes("planner") ?? false;
  const checked = useChecked(source, job);
  const changed = differences(first, source).length;
  const [step, item] = [source.steps[at[0]], at[1] === null ? undefined : source.steps[at[0]]?.items[at[1]]];
  const setStep = (next: PlanStep) =>
    setSource({ ...source, steps: source.steps.map((one, place) => (place === at[0] ? next : one)) });
  const publish = async () => {
    const made = await callSignedIn<Revision>("/plans", { name: "plan.json", content: await packed(source) }).catch(
      (error: Error) => error,
    );
    if (made instanceof Error) return setSays(made.message);
    go("plan", made.hash);
  };
  const limit = (code: string) =>
    checked?.limits.find((one) => one.step === step?.code && one.item === code)?.shown ?? "";
  return (
    <Frame wide title={t("plans")} back={linkTo("plans")}>
      <div class="body">
        <div>
          <h1>{source.title}</h1>
          <p class="soft">
            {t("plans-of-revision", { revision: plan.revision })}
            {changed > 0 && ` · ${t("plans-changed", { count: changed })}`}
          </p>
        </div>
        <Figures of={plan} job={job} onJob={setJob} />
        <NotRecorder source={source} onSource={mayEdit ? setSource : undefined} />
        {says && <Notice kind="bad">{says}</Notice>}
        {checked && <FaultList faults={checked.faults} />}
        <div class="plan">
          <Outline source={source} at={at} onAt={setAt} onSource={mayEdit ? setSource : undefined} />
          {step && (
            <div class="plan-form">
              {item && at[1] !== null ? (
                <ItemForm
                  key={`${step.code} ${at[1]}`}
                  item={item}
                  shown={limit(item.code)}
                  faults={faultsOf(checked, `step ${step.code}, item ${item.code}`)}
                  readOnly={!mayEdit}
                  onItem={(next) =>
                    setStep({ ...step, items: step.items.map((one, place) => (place === at[1] ? next : one)) })
                  }
                />
              ) : (
                <StepForm key={at[0]} step={step} readOnly={!mayEdit} onStep={setStep} />
              )}
            </div>
          )}
        </div>
        {mayEdit && (
          <button
            type="button"
            class="button main"
            disabled={changed === 0 || !checked || checked.faults.length > 0}
            onClick={() => void publish()}
          >
            {changed === 0 ? t("plans-nothing-changed") : t("plans-publish-next")} <span>›</span>
          </button>
        )}
      </div>
    </Frame>
  );
}

/** What the server says of the plan as it stands, a moment after the last change. */
function useChecked(source: PlanSource, job: string): Checked | undefined {
  const [checked, setChecked] = useState<Checked>();
  useEffect(() => {
    let live = true;
    const ask = async () => {
      const figures = await figuresOfJob(job);
      const asked = { name: "plan.json", content: await packed(source), figures };
      const found = await callSignedIn<Checked>("/plans/check", asked).catch(() => undefined);
      if (live && found) setChecked(found);
    };
    const timer = setTimeout(() => void ask(), PAUSE);
    return () => {
      live = false;
      clearTimeout(timer);
    };
  }, [source, job]);
  return checked;
}

async function figuresOfJob(id: string): Promise<Record<string, string>> {
  const job = id ? await openJob(id) : null;
  if (!job) return {};
  const { basis, data } = job.progress.job;
  const pieces = [...job.progress.job.pieces.values()].map((piece) => piece.figures ?? {});
  return { ...Object.assign({}, ...pieces), ...data.figure_sets[String(basis.figures)]?.values };
}

function packed(source: PlanSource): Promise<string> {
  return contentOf(new Blob([JSON.stringify(source)]));
}

function faultsOf(checked: Checked | undefined, place: string): string[] {
  return (checked?.faults ?? []).filter((fault) => fault.startsWith(`${place},`) || fault.startsWith(`${place}:`));
}

/** The job whose figures the limits are worked out for. */
function Figures({ of, job, onJob }: { of: Written; job: string; onJob: (id: string) => void }) {
  const jobs = useLoaded(async () => {
    const plans = await callSignedIn<Revision[]>("/plans");
    return [...new Set(plans.filter((plan) => plan.code === of.code).flatMap((plan) => plan.jobs))].sort();
  }, [of.hash]);
  const wanted = job || (jobs?.[0] ?? "");
  useEffect(() => onJob(wanted), [wanted]);
  if (!jobs || jobs.length === 0) return null;
  return (
    <label class="field small">
      {t("plans-figures-of")}
      <select value={job} onChange={(event) => onJob(event.currentTarget.value)}>
        {jobs.map((id) => (
          <option key={id} value={id}>
            {id}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Whether nobody decides about a finding of their own; the key is left out where anybody may. */
function NotRecorder({ source, onSource }: Pick<OutlineProps, "source" | "onSource">) {
  const { not_recorder: asked, ...rest } = source;
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={asked === true}
        disabled={!onSource}
        onChange={(event) => onSource?.(event.currentTarget.checked ? { ...source, not_recorder: true } : rest)}
      />
      {t("plans-not-recorder")}
    </label>
  );
}

function FaultList({ faults }: { faults: readonly string[] }) {
  if (faults.length === 0) return null;
  return (
    <Notice kind="bad">
      <ul>
        {faults.slice(0, 8).map((fault) => (
          <li key={fault}>{fault}</li>
        ))}
      </ul>
    </Notice>
  );
}

interface OutlineProps {
  source: PlanSource;
  at: [number, number | null];
  onAt: (at: [number, number | null]) => void;
  onSource: ((source: PlanSource) => void) | undefined;
}

/** Stages, steps and items in order; what is chosen can be moved, and another added below it. */
function Outline({ source, at, onAt, onSource }: OutlineProps) {
  const steps = source.steps;
  const move = (by: number) => {
    const [place, within] = at;
    if (within === null) {
      onSource?.({ ...source, steps: moved(steps, place, by) });
      onAt([place + by, null]);
    } else {
      const items = moved(steps[place]?.items ?? [], within, by);
      onSource?.({ ...source, steps: steps.map((step, one) => (one === place ? { ...step, items } : step)) });
      onAt([place, within + by]);
    }
  };
  const many = at[1] === null ? steps.length : (steps[at[0]]?.items.length ?? 0);
  const now = at[1] ?? at[0];
  return (
    <nav class="plan-outline" aria-label={t("plans-outline")}>
      {onSource && (
        <div class="pair">
          <button type="button" class="button" disabled={now === 0} onClick={() => move(-1)}>
            {t("plans-up")}
          </button>
          <button type="button" class="button" disabled={now >= many - 1} onClick={() => move(1)}>
            {t("plans-down")}
          </button>
          <button type="button" class="button" onClick={() => onSource(withItem(source, at, onAt))}>
            {t("plans-add-item")}
          </button>
          <button type="button" class="button" onClick={() => onSource(withStep(source, at, onAt))}>
            {t("plans-add-step")}
          </button>
          <button type="button" class="button" disabled={many < 2} onClick={() => onSource(without(source, at, onAt))}>
            {t("plans-take-out")}
          </button>
        </div>
      )}
      <ol>
        {steps.map((step, place) => (
          <li key={step.code}>
            <button
              type="button"
              class="outline-step"
              aria-current={at[0] === place && at[1] === null}
              onClick={() => onAt([place, null])}
            >
              {step.number} {step.name}
            </button>
            {at[0] === place && (
              <ol>
                {step.items.map((item, within) => (
                  <li key={item.code}>
                    <button
                      type="button"
                      class="outline-item"
                      aria-current={at[1] === within}
                      onClick={() => onAt([place, within])}
                    >
                      {item.name}
                    </button>
                  </li>
                ))}
              </ol>
            )}
          </li>
        ))}
      </ol>
    </nav>
  );
}

export function moved<T>(list: readonly T[], from: number, by: number): T[] {
  const [taken, rest] = [list[from], list.filter((_, place) => place !== from)];
  return taken === undefined ? [...list] : [...rest.slice(0, from + by), taken, ...rest.slice(from + by)];
}

/** With another item below the one chosen, its code one that is free. */
function withItem(source: PlanSource, at: [number, number | null], onAt: OutlineProps["onAt"]): PlanSource {
  const [place, within] = at;
  const taken = new Set(source.steps[place]?.items.map(({ code }) => code));
  let number = 1;
  while (taken.has(`item_${number}`)) number += 1;
  const item = { code: `item_${number}`, name: t("plans-new-item"), kind: "visual" };
  const after = within === null ? 0 : within + 1;
  onAt([place, after]);
  const into = (step: PlanStep) => ({
    ...step,
    items: [...step.items.slice(0, after), item, ...step.items.slice(after)],
  });
  return { ...source, steps: source.steps.map((step, one) => (one === place ? into(step) : step)) };
}

/** With another step below the one chosen: with its kinds and points, and one item to write over. */
function withStep(source: PlanSource, [place]: [number, number | null], onAt: OutlineProps["onAt"]): PlanSource {
  const taken = new Set(source.steps.map(({ code }) => code));
  let number = 1;
  while (taken.has(`step_${number}`)) number += 1;
  const like = source.steps[place];
  if (!like) return source;
  const item = { code: "item_1", name: t("plans-new-item"), kind: "visual" };
  const { stage, kinds, points } = like;
  const step = { code: `step_${number}`, number: `${like.number}a`, name: t("plans-new-step"), stage, kinds, points };
  onAt([place + 1, null]);
  const steps = [...source.steps.slice(0, place + 1), { ...step, items: [item] }, ...source.steps.slice(place + 1)];
  return { ...source, steps };
}

function without(source: PlanSource, at: [number, number | null], onAt: OutlineProps["onAt"]): PlanSource {
  const [place, within] = at;
  onAt(within === null ? [Math.max(place - 1, 0), null] : [place, null]);
  if (within === null) return { ...source, steps: source.steps.filter((_, one) => one !== place) };
  const out = (step: PlanStep) => ({ ...step, items: step.items.filter((_, one) => one !== within) });
  return { ...source, steps: source.steps.map((step, one) => (one === place ? out(step) : step)) };
}
