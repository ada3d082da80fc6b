/** The way out by a file, where no server can be reached. It works with the app locked, and changes nothing here. */
import { useState } from "preact/hooks";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { sizeText } from "../parts/sizes";
import { download, type Export, exportUnsent, shareable } from "../store/export";

export function ToFile({ empty }: { empty: boolean }) {
  const [made, setMade] = useState<Export | null>(null);
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    setSays("");
    try {
      const all = await exportUnsent();
      download(all.file);
      setMade(all);
    } catch (error) {
      setSays(t("file-none", { says: error instanceof Error ? error.message : String(error) }));
    } finally {
      setBusy(false);
    }
  };
  const shared = made && shareable(made.file);
  return (
    <>
      {!empty && (
        <button type="button" class="button" disabled={busy} onClick={() => void make()}>
          {t(busy ? "file-busy" : "not-saved-to-file")}
        </button>
      )}
      {made && (
        <Notice>
          <p>{t("file-made", { records: made.records, photos: made.photos })}</p>
          <p>
            <b class="file-name">{made.file.name}</b> · {sizeText(made.file.size)}
          </p>
        </Notice>
      )}
      {shared && (
        <button type="button" class="button" onClick={() => void navigator.share({ files: [shared] }).catch(() => {})}>
          {t("file-share")}
        </button>
      )}
      {says && <Notice kind="bad">{says}</Notice>}
    </>
  );
}
