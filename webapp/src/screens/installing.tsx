/** Why the app belongs on the home screen: what is recorded is safer there. Said where it is so, and only there. */
import { useState } from "preact/hooks";
import { locale, t } from "../language";
import { installOffer } from "../offer";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { setSetting, setting } from "../store/db";
import { isInstalled, isIosTab, SAFARI_KEEPS } from "../store/holding-out";
import { askToKeep } from "../store/room";
import { waiting } from "../sync/loop";

/** Said on My work in an iOS tab, louder where something is unsent. */
export function TabWarning() {
  const { records, photos } = waiting.value;
  if (!isIosTab()) return null;
  const until = new Date(Date.now() + SAFARI_KEEPS).toLocaleDateString(locale(), { day: "numeric", month: "long" });
  const unsent = records + photos;
  return (
    <Notice kind={unsent > 0 ? "bad" : "care"}>
      <p>{unsent > 0 ? t("install-ios-unsent", { count: unsent, until }) : t("install-ios", { until })}</p>
      <p>{t("install-ios-how")}</p>
    </Notice>
  );
}

/** Whether the browser has promised to keep what is here. */
async function promised(): Promise<boolean> {
  return (await navigator.storage?.persisted?.()) ?? false;
}

/** Whether the data is safe here, and the way onto the home screen, where it is safer. */
export function KeptOnPhone() {
  const kept = useLoaded(promised, []);
  const offer = installOffer.value;
  const install = async () => {
    await offer?.prompt();
    installOffer.value = null;
  };
  if (kept === undefined) return null;
  return (
    <section class="choices">
      <h2>{t("install-title")}</h2>
      <p class="soft">{kept ? t("install-kept") : t("install-not-kept")}</p>
      {isInstalled() ? (
        <p class="soft">{t("install-done")}</p>
      ) : (
        <p class="soft">{isIosTab() ? t("install-ios-how") : t("install-why")}</p>
      )}
      {offer && (
        <button type="button" class="button" onClick={() => void install()}>
          {t("install-now")}
        </button>
      )}
    </section>
  );
}

const TOLD = "told whether kept";

/**
 * On My work, after the first save: the browser is asked to keep the data, and where it does not promise it, that is told
 * once. In an iOS tab the warning stays.
 */
export function KeptTold() {
  const [read, setRead] = useState(false);
  const saved = waiting.value.records > 0;
  const kept = useLoaded(async () => {
    if (!saved || (await setting<boolean>(TOLD))) return true;
    await askToKeep();
    return promised();
  }, [saved]);
  if (isIosTab()) return <TabWarning />;
  if (kept !== false || read) return null;
  const putAway = () => {
    setRead(true);
    void setSetting(TOLD, true);
  };
  return (
    <Notice kind="care">
      <p>{t("install-not-kept")}</p>
      <button type="button" class="button" onClick={putAway}>
        {t("not-saved-read")}
      </button>
    </Notice>
  );
}
