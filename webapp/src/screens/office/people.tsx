/** People: their roles and phones, invitations, and how long the makers' qualifications hold. */
import { useState } from "preact/hooks";
import "../../office-people.css";
import { locale, t, word } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { linkTo, me } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { DECIDING, PersonForm } from "./person-form";
import { Qualifications } from "./qualifications";

export type Listed = Schemas["ListedPerson"];
type Invitation = Schemas["Invitation"];

export function PeopleScreen() {
  const [kept, setKept] = useState({ count: 0, name: "" });
  const [at, setAt] = useState<Listed | "new" | null>(null);
  const [invited, setInvited] = useState<{ name: string; by: Invitation } | null>(null);
  const [fault, setFault] = useState("");
  const { found: people, says } = useAsked<Listed[]>("/people", [kept.count]);
  const change = (to: Listed | "new") => {
    setInvited(null);
    setAt(to);
  };
  const invite = async (who: Listed) => {
    setAt(null);
    setFault("");
    const by = await callSignedIn<Invitation>("/invitations", { person: who.id }).catch((error: Error) => error);
    if (by instanceof Error) return setFault(by.message);
    setKept({ ...kept, name: "" });
    setInvited({ name: who.name, by });
    scrollTo(0, 0);
  };
  return (
    <Frame wide title={t("office")} back={linkTo("office")}>
      <div class="body">
        <h1>{t("people")}</h1>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {fault && <Notice kind="bad">{fault}</Notice>}
        {invited && <Invited name={invited.name} by={invited.by} />}
        {people && (
          <div class="office-actions">
            <button type="button" class="button" onClick={() => change("new")}>
              {t("people-add")}
            </button>
          </div>
        )}
        {at && (
          <PersonForm
            key={at === "new" ? "" : at.id}
            of={at === "new" ? null : at}
            known={people ?? []}
            onLeave={() => setAt(null)}
            onKept={(name) => {
              setAt(null);
              setKept({ count: kept.count + 1, name });
            }}
          />
        )}
        {kept.name && at === null && <Notice>{t("office-kept", { what: kept.name })}</Notice>}
        {people && <PeopleTable people={people} onChange={change} onInvite={(who) => void invite(who)} />}
        {people && <Inspectors people={people} />}
        {people && <Qualifications people={people} />}
      </div>
    </Frame>
  );
}

function Invited({ name, by }: { name: string; by: Invitation }) {
  const { side, path } = by.symbol;
  const until = new Date(by.expires * 1000).toLocaleString(locale(), { dateStyle: "medium", timeStyle: "short" });
  return (
    <section class="invitation" role="status" aria-label={t("people-invited", { name })}>
      <svg viewBox={`0 0 ${side} ${side}`} role="img" aria-label={t("people-invited-symbol")}>
        <path d={path} shape-rendering="crispEdges" />
      </svg>
      <div>
        <h2>{t("people-invited", { name })}</h2>
        <p class="invitation-code">{by.invitation}</p>
        <p>{t("people-invited-how", { name, address: by.address.split("#")[0] ?? "", until })}</p>
      </div>
    </section>
  );
}

interface TableProps {
  people: readonly Listed[];
  onChange: (who: Listed) => void;
  onInvite: (who: Listed) => void;
}

function PeopleTable({ people, onChange, onInvite }: TableProps) {
  const supervisor = me.value?.roles.includes("supervisor") ?? false;
  const may = (who: Listed) => supervisor || !who.roles.some((role) => DECIDING.includes(role));
  return (
    <section>
      <table class="lines" aria-label={t("people")}>
        <thead>
          <tr>
            {["people-person", "people-roles", "people-stamp", "people-phones", "jobs-ways"].map((name) => (
              <th key={name} scope="col">
                {t(name)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {people.map((who) => (
            <tr key={who.id}>
              <th scope="row">
                {who.name} <span class="small soft">{who.id}</span>
              </th>
              <td data-cell={t("people-roles")}>
                {who.roles.map((role) => word("role", role)).join(", ") || t("people-no-role")}
              </td>
              <td data-cell={t("people-stamp")}>{who.stamp}</td>
              <td data-cell="">
                <Phones phones={who.phones} />
              </td>
              <td data-cell="">{may(who) && <Ways who={who} onChange={onChange} onInvite={onInvite} />}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {!supervisor && <p class="small soft">{t("people-supervisor-only")}</p>}
    </section>
  );
}

function Ways({ who, onChange, onInvite }: Omit<TableProps, "people"> & { who: Listed }) {
  const { name } = who;
  return (
    <div class="row-ways">
      <button type="button" class="link" aria-label={t("people-invite-of", { name })} onClick={() => onInvite(who)}>
        {t("people-invite")}
      </button>
      <button type="button" class="link" aria-label={t("people-change-of", { name })} onClick={() => onChange(who)}>
        {t("people-change")}
      </button>
    </div>
  );
}

/** A line a phone: a phone may hold several keys, one for each time it was enrolled. */
function Phones({ phones }: Pick<Listed, "phones">) {
  const once = [...new Map(phones.map((phone) => [phone.device, phone])).values()];
  if (once.length === 0) return <span class="soft">{t("people-no-phone")}</span>;
  return (
    <ul class="plain-list">
      {once.map((phone) => (
        <li key={phone.device}>
          {phone.last_heard === null
            ? t("people-phone-never")
            : t("people-phone-heard", { time: when(phone.last_heard) })}
          {phone.waiting > 0 && ` · ${t("people-phone-waiting", { count: phone.waiting })}`}
          {phone.shut && (
            <>
              {" "}
              <span aria-hidden="true">
                <Mark shape="blocked" />
              </span>{" "}
              <b>{t("people-phone-shut")}</b>
            </>
          )}
        </li>
      ))}
    </ul>
  );
}

function when(seconds: number): string {
  return new Date(seconds * 1000).toLocaleString(locale(), { dateStyle: "medium", timeStyle: "short" });
}

function Inspectors({ people }: { people: readonly Listed[] }) {
  const inspectors = people.filter((who) => who.roles.includes("authorized inspector"));
  const nameOf = (id: string) => people.find((who) => who.id === id)?.name ?? id;
  return (
    <section>
      <h2>{t("people-inspectors")}</h2>
      {inspectors.length === 0 ? (
        <p class="soft">{t("people-inspectors-none")}</p>
      ) : (
        <table class="lines" aria-label={t("people-inspectors")}>
          <thead>
            <tr>
              {["people-person", "people-field-commission", "people-field-stands-in-for"].map((name) => (
                <th key={name} scope="col">
                  {t(name)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {inspectors.map((who) => (
              <tr key={who.id}>
                <th scope="row">{who.name}</th>
                <td data-cell={t("people-field-commission")}>{who.commission || t("people-no-commission")}</td>
                <td data-cell={t("people-field-stands-in-for")}>
                  {who.stands_in_for ? nameOf(who.stands_in_for) : t("people-nobody")}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}
