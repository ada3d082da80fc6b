/** The fields of a step and of an item, in the words of a plan's workbook. */
import { t } from "../../language";
import { inLine, type PlanItem, type PlanStep } from "./plan-diff";

const KINDS = ["visual", "measure", "derived", "photo", "weld", "report", "text"];
const CHOICES: Record<string, string[]> = {
  kind: KINDS,
  binds: ["code", "drawing", "shop"],
  rule: ["simple", "guarded"],
  photo: ["never", "out", "always"],
};
const LIMITS = ["lower", "upper", "nominal", "tolerance", "plus", "minus", "formula", "only_if", "thickness"];
const OF_MEASURES = ["uom", "rule", "place", ...LIMITS.filter((one) => one !== "only_if" && one !== "thickness")];
const FIELDS = [
  "name",
  "code",
  "kind",
  "uom",
  "where",
  "stations",
  ...LIMITS,
  "binds",
  "rule",
  "gauge",
  "photo",
  "place",
  "source",
  "note",
];

/** The fields that an item of a kind can have. */
export function fieldsOf(kind: string): string[] {
  const measured = kind === "measure" || kind === "derived";
  return FIELDS.filter((field) => {
    if (field === "formula") return kind === "derived";
    if (field === "thickness") return kind === "weld";
    if (field === "gauge") return kind === "measure";
    return measured || !OF_MEASURES.includes(field);
  });
}

interface FieldProps {
  name: string;
  value: string;
  readOnly: boolean;
  onValue: (text: string) => void;
}

function Field(props: FieldProps) {
  return CHOICES[props.name] ? <ChoiceField {...props} /> : <TextField {...props} />;
}

function labelOf(name: string): string {
  return t(`plan-field-${name.replaceAll("_", "-")}`);
}

function ChoiceField({ name, value, readOnly, onValue }: FieldProps) {
  return (
    <label class="field">
      {labelOf(name)}
      <select value={value} disabled={readOnly} onChange={(event) => onValue(event.currentTarget.value)}>
        {[...new Set([...(CHOICES[name] ?? []), ...(value ? [value] : [])])].map((one) => (
          <option key={one} value={one}>
            {one}
          </option>
        ))}
      </select>
    </label>
  );
}

function TextField({ name, value, readOnly, onValue }: FieldProps) {
  return (
    <label class="field">
      {labelOf(name)}
      <input
        value={value}
        readOnly={readOnly}
        spellcheck={!LIMITS.includes(name)}
        autocomplete="off"
        onInput={(event) => onValue(event.currentTarget.value)}
      />
    </label>
  );
}

interface ItemFormProps {
  item: PlanItem;
  /** What the limit gives for the job's figures, in both notations. */
  shown: string;
  faults: readonly string[];
  readOnly: boolean;
  onItem: (item: PlanItem) => void;
}

export function ItemForm({ item, shown, faults, readOnly, onItem }: ItemFormProps) {
  const defaults: Record<string, string> = { binds: "shop", rule: "simple", photo: "never" };
  const put = (field: string, text: string) => {
    const { [field]: _, ...rest } = item;
    onItem((text ? { ...rest, [field]: text } : rest) as PlanItem);
  };
  return (
    <section>
      <h2>{item.name}</h2>
      <div class="limit-now" role="status">
        {faults.length > 0 ? (
          <ul class="bad">
            {faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
        ) : (
          <p>
            <b>{shown || t("plans-no-limit")}</b>
          </p>
        )}
      </div>
      <div class="office-fields">
        {fieldsOf(item.kind).map((field) => (
          <Field
            key={field}
            name={field}
            value={inLine(item[field] ?? defaults[field] ?? "")}
            readOnly={readOnly}
            onValue={(text) => put(field, text)}
          />
        ))}
      </div>
    </section>
  );
}

interface StepFormProps {
  step: PlanStep;
  readOnly: boolean;
  onStep: (step: PlanStep) => void;
}

/** What is a list stands one a line. */
export function StepForm({ step, readOnly, onStep }: StepFormProps) {
  const lines = (value: unknown) => (Array.isArray(value) ? value.map(String).join("\n") : "");
  const listed = (text: string) =>
    text
      .split("\n")
      .map((line) => line.trim())
      .filter(Boolean);
  const text = (field: string) => (
    <Field
      key={field}
      name={field}
      value={inLine(step[field] ?? "")}
      readOnly={readOnly}
      onValue={(value) => onStep({ ...step, [field]: value })}
    />
  );
  const area = (field: "kinds" | "points" | "not_before" | "cautions") => (
    <label class="field" key={field}>
      {labelOf(field)}
      <textarea
        readOnly={readOnly}
        defaultValue={lines(step[field])}
        onChange={(event) => onStep({ ...step, [field]: listed(event.currentTarget.value) })}
      />
    </label>
  );
  return (
    <section>
      <h2>
        {step.number} {step.name}
      </h2>
      <div class="office-fields">
        {["name", "number", "stage", "note"].map(text)}
        {area("kinds")}
        {area("points")}
        {area("not_before")}
        {area("cautions")}
      </div>
      <p class="small soft">{t("plans-lines")}</p>
    </section>
  );
}
