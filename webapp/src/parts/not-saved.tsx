/** What stands at the bottom of every screen: that something was not saved, and what is the matter with the store. */
import { t } from "../language";
import { linkTo } from "../state";
import { storeTrouble } from "../store/db";
import { notSaved } from "../store/records";

/** Said until something is saved again, or until it is put away by hand. */
export function NotSaved() {
  const close = () => {
    notSaved.value = "";
  };
  return notSaved.value ? <NotSavedNote says={notSaved.value} onClose={close} /> : null;
}

export function NotSavedNote({ says, onClose }: { says: string; onClose: () => void }) {
  return (
    <div class="bottom-note" role="alert">
      <p>
        <b class="not-saved">{t("not-saved")}</b> {says}
      </p>
      <div class="pair">
        <a class="button" href={linkTo("unsent")} onClick={onClose}>
          {t("not-saved-to-file")}
        </a>
        <button type="button" class="button" onClick={onClose}>
          {t("not-saved-read")}
        </button>
      </div>
    </div>
  );
}

export function StoreTrouble() {
  const trouble = storeTrouble.value;
  if (!trouble) return null;
  return (
    <div class="bottom-note" role="status">
      <p>{t(`trouble-${trouble}`)}</p>
      {trouble === "older" && (
        <div class="pair">
          <a class="button" href={linkTo("unsent")}>
            {t("not-saved-to-file")}
          </a>
          <button type="button" class="button" onClick={() => location.reload()}>
            {t("trouble-load-again")}
          </button>
        </div>
      )}
    </div>
  );
}
