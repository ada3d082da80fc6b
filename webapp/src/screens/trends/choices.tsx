/** Which values are shown, and by which rules they are looked at. */
import { t } from "../../language";
import { type Chosen, FILTERS, figure, RULES, type Trend, type Ways, WEIGHTS } from "./asking";

interface ChoicesProps {
  trend: Trend;
  chosen: Chosen;
  ways: Ways;
  onChosen: (chosen: Chosen) => void;
  onWays: (ways: Ways) => void;
}

export function Choices({ trend, chosen, ways, onChosen, onWays }: ChoicesProps) {
  const { filters, people } = trend;
  const shown = FILTERS.filter((name) => chosen[name] || (filters[name]?.length ?? 0) > 1);
  return (
    <div class="trend-choices unprinted">
      {shown.map((name) => (
        <Choice
          key={name}
          label={t(`trends-filter-${name}`)}
          value={chosen[name] ?? ""}
          onValue={(value) => onChosen({ ...chosen, [name]: value })}
          choices={[
            ["", t("trends-filter-all")],
            ...(filters[name] ?? [])
              .filter(({ value }) => value)
              .map(
                ({ value, count }) => [value, t("trends-filter-one", { name: people[value] ?? value, count })] as const,
              ),
          ]}
        />
      ))}
      <Choice
        label={t("trends-show")}
        value={ways.show}
        onValue={(show) => onWays({ ...ways, show: show as Ways["show"] })}
        choices={[
          ["left", t("trends-show-left")],
          ["found", t("trends-show-found")],
        ]}
      />
      <details class="trend-rules">
        <summary>{t("trends-rules", { count: ways.rules.length })}</summary>
        <fieldset class="ticks">
          <legend>{t("trends-rules-which")}</legend>
          {RULES.map((rule) => (
            <label key={rule} class="check">
              <input
                type="checkbox"
                checked={ways.rules.includes(rule)}
                onChange={(event) => onWays({ ...ways, rules: ticked(ways.rules, rule, event.currentTarget.checked) })}
              />
              {t(`trends-rule-${rule}`)}
            </label>
          ))}
        </fieldset>
        <div class="trend-search">
          <Choice
            label={t("trends-weight")}
            value={ways.weight}
            onValue={(weight) => onWays({ ...ways, weight })}
            choices={WEIGHTS.map((weight) => [weight, figure(Number(weight), 2)])}
          />
          <Choice
            label={t("trends-from")}
            value={ways.baseline}
            onValue={(baseline) => onWays({ ...ways, baseline: baseline as Ways["baseline"] })}
            choices={[
              ["first", t("trends-from-first")],
              ["all", t("trends-from-all")],
            ]}
          />
        </div>
      </details>
    </div>
  );
}

function ticked(rules: readonly string[], rule: string, on: boolean): string[] {
  return RULES.filter((one) => (one === rule ? on : rules.includes(one)));
}

interface ChoiceProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  choices: readonly (readonly [value: string, shown: string])[];
}

export function Choice({ label, value, onValue, choices }: ChoiceProps) {
  return (
    <label class="field">
      {label}
      <select value={value} onChange={(event) => onValue(event.currentTarget.value)}>
        {choices.map(([one, shown]) => (
          <option key={one} value={one}>
            {shown}
          </option>
        ))}
      </select>
    </label>
  );
}
