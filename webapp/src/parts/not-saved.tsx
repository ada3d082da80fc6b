/** What stands at the bottom of every screen: that something was not saved, and what is the matter with the store. */
import { linkTo } from "../state";
import { storeTrouble } from "../store/db";
import { notSaved, OLDER } from "../store/records";

const TROUBLES = {
  older: OLDER,
  blocked: "Seamtag is open in another tab with an older version. Close that tab; nothing is lost.",
};

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
        <b class="not-saved">NOT saved.</b> {says}
      </p>
      <div class="pair">
        <a class="button" href={linkTo("unsent")} onClick={onClose}>
          Save to a file
        </a>
        <button type="button" class="button" onClick={onClose}>
          I have read it
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
      <p>{TROUBLES[trouble]}</p>
      {trouble === "older" && (
        <div class="pair">
          <a class="button" href={linkTo("unsent")}>
            Save to a file
          </a>
          <button type="button" class="button" onClick={() => location.reload()}>
            Load again
          </button>
        </div>
      )}
    </div>
  );
}
