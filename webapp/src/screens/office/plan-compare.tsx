/** Two revisions of a plan side by side: what came, what went, and every field that differs. */
import type { components } from "../../api/schema";
import { t } from "../../language";
import { Frame } from "../../parts/frame";
import { useLoaded } from "../../parts/use";
import { linkTo } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { differences, type PlanSource } from "./plan-diff";

type Written = components["schemas"]["Written"];

export function PlanCompare({ former, latter }: { former: string; latter: string }) {
  const both = useLoaded(
    () => Promise.all([former, latter].map((hash) => callSignedIn<Written>(`/plans/${hash}`))).catch(() => null),
    [former, latter],
  );
  if (!both) return <Frame wide title={t("plans")} back={linkTo("plans")} children={null} />;
  const [before, after] = both;
  if (!before || !after) return null;
  const found = differences(before.source as unknown as PlanSource, after.source as unknown as PlanSource);
  return (
    <Frame wide title={t("plans")} back={linkTo("plans")}>
      <div class="body">
        <h1>{after.title}</h1>
        {found.length === 0 && <p>{t("plans-same")}</p>}
        <table class="office compare">
          <thead>
            <tr>
              <th scope="col">{t("plans-place")}</th>
              <th scope="col">{t("plans-field")}</th>
              <th scope="col">{t("plans-of-revision", { revision: before.revision })}</th>
              <th scope="col">{t("plans-of-revision", { revision: after.revision })}</th>
            </tr>
          </thead>
          <tbody>
            {found.map((one) => (
              <tr key={`${one.place} ${one.field} ${one.after}`}>
                <th scope="row">{one.place || t("plans-itself")}</th>
                <td>{one.field || (one.after ? t("plans-new") : t("plans-gone"))}</td>
                <td class={one.before && one.before !== one.after ? "was" : ""}>{one.before}</td>
                <td class="is">{one.after}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Frame>
  );
}
