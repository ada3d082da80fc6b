/** One item: what its values say together, their chart, and where they come from. */
import { useMemo, useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo } from "../../state";
import { changes } from "../../store/jobs";
import { useAsked } from "../office/asking";
import { type Chosen, keepWays, keptWays, pathOf, type Trend, type Ways } from "./asking";
import { Charts } from "./charts";
import { Choices } from "./choices";
import { Groups } from "./groups";
import { aboutItem, Printed } from "./printed";
import { SideBySide } from "./side-by-side";
import { Says } from "./summary";
import { ValueTable } from "./table";

interface ItemProps {
  plan: string;
  step: string;
  item: string;
}

export function ItemPage({ plan, step, item }: ItemProps) {
  const [ways, setWays] = useState<Ways>(keptWays);
  const [chosen, setChosen] = useState<Chosen>({});
  const { found: trend, says } = useAsked<Trend>(pathOf(plan, step, item, chosen, ways), [changes.value]);
  const keep = (next: Ways) => {
    keepWays(next);
    setWays(next);
  };
  return (
    <Frame wide title={t("trends")} back={linkTo("trends")}>
      <div class="body trends">
        {says && <Notice kind="bad">{t("trends-offline", { says })}</Notice>}
        {!trend && !says && <p role="status">{t("trends-loading")}</p>}
        {trend && (
          <>
            <header>
              <Printed about={aboutItem(trend, chosen, ways)} />
              <h1>{trend.name}</h1>
              <p class="soft">
                {t("trends-place", { number: trend.step_number, step: trend.step_name, plan: trend.plan })}
              </p>
            </header>
            <div class="trend-top">
              <Says trend={trend} />
              <Choices trend={trend} chosen={chosen} ways={ways} onChosen={setChosen} onWays={keep} />
            </div>
            <Shown trend={trend} onChosen={(next) => setChosen({ ...chosen, ...next })} />
          </>
        )}
      </div>
    </Frame>
  );
}

function Shown({ trend, onChosen }: { trend: Trend; onChosen: (chosen: Chosen) => void }) {
  const [at, setAt] = useState<number | null>(null);
  const signals = useMemo(() => signalsAt(trend), [trend]);
  const count = trend.points.value.length;
  const place = at !== null && at < count ? at : null;
  if (count === 0) return <p class="soft">{t("trends-empty")}</p>;
  return (
    <>
      <Charts trend={trend} signals={signals} at={place} onPoint={setAt} />
      <SideBySide plan={trend.plan} step={trend.step} item={trend.item} />
      <div class="trend-below">
        <Groups trend={trend} onChosen={onChosen} />
        <ValueTable trend={trend} signals={signals} />
      </div>
    </>
  );
}

/** Which rules fire at each place. */
function signalsAt(trend: Trend): Map<number, string[]> {
  const found = new Map<number, string[]>();
  for (const [rule, places] of Object.entries(trend.signals))
    for (const place of places) found.set(place, [...(found.get(place) ?? []), rule]);
  return found;
}
