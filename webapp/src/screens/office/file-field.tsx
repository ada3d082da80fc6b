/** A file chosen by hand or dropped, and its bytes in base64, as the server takes them. */
import { useState } from "preact/hooks";
import { t } from "../../language";

export interface ChosenFile {
  name: string;
  content: string;
}

export function contentOf(file: Blob): Promise<string> {
  return new Promise((done, fail) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => fail(reader.error);
    reader.readAsDataURL(file);
  });
}

interface FileFieldProps {
  label: string;
  accept: string;
  onFile: (file: ChosenFile) => void;
}

export function FileField({ label, accept, onFile }: FileFieldProps) {
  const [over, setOver] = useState(false);
  const take = async (file: File | undefined) => {
    if (file) onFile({ name: file.name, content: await contentOf(file) });
  };
  return (
    <label
      class={over ? "file-field over" : "file-field"}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        void take(event.dataTransfer?.files[0]);
      }}
    >
      <b>{label}</b>
      <span class="small soft">{t("office-drop")}</span>
      <input
        type="file"
        accept={accept}
        onChange={(event) => {
          void take(event.currentTarget.files?.[0]);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}
