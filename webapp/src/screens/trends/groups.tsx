/** Whose hand and which gauge the values come from: mean, spread and share flagged of each, side by side. */
import { t } from "../../language";
import { type Chosen, figure, type Group, percent, type Trend } from "./asking";
import { shareText } from "./table";

const GROUPS = ["maker", "gauge", "procedure", "kind"] as const;
/** Half the width of a mean's interval of 95 %, in its standard errors. */
const REACH = 1.96;

interface GroupsProps {
  trend: Trend;
  onChosen: (chosen: Chosen) => void;
}

export function Groups({ trend, onChosen }: GroupsProps) {
  const known = GROUPS.filter((name) => trend.groups[name]?.some((one) => one.name));
  const shown = known.filter((name) => (trend.groups[name]?.length ?? 0) > 1);
  const single = known.filter((name) => !shown.includes(name));
  return (
    <section class="trend-groups">
      <h2>{t("trends-from-where")}</h2>
      {shown.length > 0 && <p class="small soft">{t("trends-groups-how")}</p>}
      {known.length === 0 && <p class="soft">{t("trends-no-groups")}</p>}
      {single.map((name) => {
        const one = trend.groups[name]?.[0]?.name ?? "";
        return <p key={name}>{t(`trends-all-${name}`, { name: trend.people[one] ?? one })}</p>;
      })}
      {shown.map((name) => (
        <GroupTable
          key={name}
          name={name}
          trend={trend}
          groups={trend.groups[name] ?? []}
          onGroup={(value) => onChosen({ [name]: value })}
        />
      ))}
    </section>
  );
}

interface TableProps {
  name: (typeof GROUPS)[number];
  trend: Trend;
  groups: readonly Group[];
  onGroup: (value: string) => void;
}

function GroupTable({ name, trend, groups, onGroup }: TableProps) {
  const scale = scaleOf(groups, trend.summary?.mean ?? null);
  return (
    <table class="lines" aria-label={t(`trends-by-${name}`)}>
      <thead>
        <tr>
          {[`by-${name}`, "column-mean", "column-sd", "column-flagged"].map((column) => (
            <th key={column} scope="col">
              {t(`trends-${column}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {groups.map((group) => (
          <tr key={group.name}>
            <th scope="row">
              {group.name ? (
                <button type="button" class="link begins" onClick={() => onGroup(group.name)}>
                  {trend.people[group.name] ?? group.name}
                </button>
              ) : (
                <span class="soft">{t("trends-nobody")}</span>
              )}
            </th>
            <td data-cell={t("trends-column-mean")}>
              {group.mean !== null && figure(group.mean)} <Reach group={group} scale={scale} />
            </td>
            <td data-cell={t("trends-column-sd")}>{group.sd !== null && figure(group.sd, 3)}</td>
            <td data-cell={t("trends-column-flagged")}>
              <ShareSaid share={group} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A share with its interval; that it is of few values is said. */
export function ShareSaid({ share }: { share: Pick<Group, "flagged" | "n" | "low" | "high" | "small"> }) {
  return (
    <>
      <span class="nowrap">{shareText(share)}</span>{" "}
      <span class="small soft">
        {t("trends-share-interval", { low: percent(share.low), high: percent(share.high) })}
        {share.small && <span class="nowrap"> · {t("trends-few")}</span>}
      </span>
    </>
  );
}

interface Scale {
  readonly least: number;
  readonly most: number;
  readonly centre: number;
}

function reachOf({ mean, sd, n }: Group): number {
  return mean === null || sd === null ? 0 : (REACH * sd) / Math.sqrt(n);
}

function scaleOf(groups: readonly Group[], centre: number | null): Scale | null {
  const ends = groups.flatMap((group) =>
    group.mean === null ? [] : [group.mean - reachOf(group), group.mean + reachOf(group)],
  );
  if (centre === null || ends.length < 2) return null;
  const [least, most] = [Math.min(...ends, centre), Math.max(...ends, centre)];
  return most > least ? { least, most, centre } : null;
}

/** A group's mean with its interval, against the mean of all: a line across is the mean of all. */
function Reach({ group, scale }: { group: Group; scale: Scale | null }) {
  if (!scale || group.mean === null) return null;
  const x = (value: number) => 4 + ((value - scale.least) / (scale.most - scale.least)) * 112;
  const reach = reachOf(group);
  return (
    <svg class="trend-reach" viewBox="0 0 120 16" aria-hidden="true">
      <path d={`M${x(scale.centre)} 0V16`} stroke="var(--line)" stroke-width="2" />
      {group.sd !== null && (
        <path d={`M${x(group.mean - reach)} 8H${x(group.mean + reach)}`} stroke="var(--ink)" stroke-width="1.5" />
      )}
      <circle cx={x(group.mean)} cy="8" r="3.5" fill="var(--ink)" />
    </svg>
  );
}
