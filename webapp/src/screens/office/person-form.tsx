/** The form of a person: name, roles and stamp; of an authorized inspector the commission and for whom they stand in. */
import { useState } from "preact/hooks";
import { ROLES } from "../../core/records";
import { t, word } from "../../language";
import { me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import type { Schemas } from "./asking";
import { ChoiceField, Form, TextField, Ticks } from "./filling";
import type { Listed } from "./people";

/** The roles of who releases or decides. */
export const DECIDING: readonly string[] = ["supervisor", "engineer", "authorized inspector", "customer"];
const ALL_ROLES: readonly string[] = [...Object.values(ROLES).flat(), "foreman", "planner"];
const INSPECTOR = "authorized inspector";

interface FormProps {
  of: Listed | null;
  known: readonly Listed[];
  onLeave: () => void;
  onKept: (name: string) => void;
}

export function PersonForm({ of, known, onLeave, onKept }: FormProps) {
  const [values, setValues] = useState({
    id: of?.id ?? "",
    name: of?.name ?? "",
    stamp: of?.stamp ?? "",
    commission: of?.commission ?? "",
    stands_in_for: of?.stands_in_for ?? "",
  });
  const [roles, setRoles] = useState<readonly string[]>(of?.roles ?? []);
  const field = (name: keyof typeof values) => ({
    label: t(`people-field-${name.replaceAll("_", "-")}`),
    value: values[name],
    onValue: (text: string) => setValues({ ...values, [name]: text }),
  });
  const supervisor = me.value?.roles.includes("supervisor");
  const inspects = roles.includes(INSPECTOR);
  const taken = !of && known.some(({ id }) => id === values.id.trim());
  const others = known.filter((who) => who.id !== of?.id && who.roles.includes(INSPECTOR));
  const keep = async () => {
    const none = { commission: "", stands_in_for: "" };
    const body = { ...values, ...(inspects ? {} : none), roles };
    onKept((await callSignedIn<Schemas["Engaged"]>("/people", body)).name);
  };
  return (
    <Form
      title={of ? t("people-change-of", { name: of.name }) : t("people-new")}
      fault={taken ? t("people-there", { id: values.id.trim() }) : ""}
      onKeep={keep}
      onLeave={onLeave}
    >
      <div class="office-fields">
        <TextField {...field("id")} needed fixed={of !== null} />
        <TextField {...field("name")} needed />
        <TextField {...field("stamp")} />
      </div>
      <Ticks
        label={t("people-field-roles")}
        chosen={roles}
        onChosen={setRoles}
        choices={ALL_ROLES.map((role) => [role, word("role", role)])}
        locked={supervisor ? [] : DECIDING}
      />
      {!supervisor && <p class="small soft">{t("people-supervisor-only")}</p>}
      {inspects && (
        <div class="office-fields">
          <TextField {...field("commission")} />
          <ChoiceField {...field("stands_in_for")} choices={others.map((who) => [who.id, who.name])} />
        </div>
      )}
      {of && <p class="small soft">{t("people-leaves")}</p>}
    </Form>
  );
}
