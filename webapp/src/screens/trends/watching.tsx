/** By which rules an item is watched: one that is broken raises a flag before a limit is crossed. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import { me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { RULES, type Trend } from "./asking";

const MAY = ["supervisor", "planner"];
const DRIFT = "drift";

export function Watching({ trend }: { trend: Trend }) {
  const [rules, setRules] = useState<readonly string[]>(trend.watched);
  const [says, setSays] = useState("");
  const may = me.value?.roles.some((role) => MAY.includes(role));
  const choose = async (rule: string, on: boolean) => {
    const { plan, step, item } = trend;
    setSays("");
    try {
      const next = [...rules.filter((one) => one !== rule), ...(on ? [rule] : [])];
      setRules((await callSignedIn<{ rules: string[] }>("/trends/watch", { plan, step, item, rules: next })).rules);
    } catch (error) {
      setSays((error as Error).message);
    }
  };
  return (
    <details class="trend-rules">
      <summary>{t("trends-watched", { count: rules.length })}</summary>
      <p class="small soft">{t(may ? "trends-watched-what" : "trends-watched-who")}</p>
      {says && <Notice kind="bad">{says}</Notice>}
      <fieldset class="ticks" disabled={!may}>
        <legend>{t("trends-watched-by")}</legend>
        {[DRIFT, ...RULES].map((rule) => (
          <label key={rule} class="check">
            <input
              type="checkbox"
              checked={rules.includes(rule)}
              onChange={(event) => void choose(rule, event.currentTarget.checked)}
            />
            {t(rule === DRIFT ? "trends-rule-drift" : `trends-rule-${rule}`)}
          </label>
        ))}
      </fieldset>
    </details>
  );
}
