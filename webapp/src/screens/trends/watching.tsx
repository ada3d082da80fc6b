/** By which rules an item is watched: one that is broken raises a flag before a limit is crossed. */
import { useState } from "preact/hooks";
import { listed, t } from "../../language";
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
    <div class="trend-watched">
      <p>{watchedBy(rules)}</p>
      {may && (
        <details class="trend-rules unprinted">
          <summary>{t("trends-watch")}</summary>
          <p class="small soft">{t("trends-watched-what")}</p>
          {says && <Notice kind="bad">{says}</Notice>}
          <fieldset class="ticks">
            <legend>{t("trends-watched-by")}</legend>
            {[DRIFT, ...RULES].map((rule) => (
              <label key={rule} class="check">
                <input
                  type="checkbox"
                  checked={rules.includes(rule)}
                  onChange={(event) => void choose(rule, event.currentTarget.checked)}
                />
                {t(`trends-rule-${rule}`)}
              </label>
            ))}
          </fieldset>
        </details>
      )}
    </div>
  );
}

/** Which rules raise a flag, in one line; or that none does. */
function watchedBy(rules: readonly string[]): string {
  const which = rules.map((rule) => t(`trends-run-${rule}`));
  return t("trends-watched", {
    count: rules.length,
    rules: listed(which, "disjunction"),
  });
}
