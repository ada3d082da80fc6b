/** A study of a gauge: several people measure the same parts several times; what of the spread is the gauge's own. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { comma } from "../../parts/customs";
import { Frame, Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { linkTo } from "../../state";
import { callSignedIn } from "../../sync/loop";
import { type ChosenFile, contentOf, FileField } from "../office/file-field";
import { figure, type Study } from "./asking";
import { Printed } from "./printed";
import { verdictOf } from "./verdict";

export function StudyPage() {
  const [text, setText] = useState("");
  const [file, setFile] = useState<ChosenFile | null>(null);
  const [tolerance, setTolerance] = useState("");
  const [study, setStudy] = useState<Study | null>(null);
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const send = async () => {
    setBusy(true);
    setSays("");
    setStudy(null);
    const content = file?.content ?? (await contentOf(new Blob([text])));
    const asked = { content, name: file?.name ?? "", tolerance, comma: comma() };
    await callSignedIn<Study>("/trends/gauge-study", asked).then(setStudy, (error: Error) => setSays(error.message));
    setBusy(false);
  };
  return (
    <Frame wide title={t("trends")} back={linkTo("trends")}>
      <div class="body trends">
        <Printed about={[t("trends-study"), file?.name ?? ""]} />
        <h1>{t("trends-study")}</h1>
        <p>{t("trends-study-means")}</p>
        <form
          class="trend-study unprinted"
          aria-label={t("trends-study")}
          onSubmit={(event) => {
            event.preventDefault();
            void send();
          }}
        >
          <div class="desk-pair">
            <label class="field">
              {t("trends-study-text")}
              <textarea
                value={text}
                disabled={file !== null}
                placeholder={t("trends-study-example")}
                onInput={(event) => setText(event.currentTarget.value)}
              />
            </label>
            <div class="trend-file">
              <FileField label={t("trends-study-file")} accept=".xlsx,.csv,.txt" onFile={setFile} />
              {file && (
                <p>
                  {t("trends-study-chosen", { name: file.name })}{" "}
                  <button type="button" class="link" onClick={() => setFile(null)}>
                    {t("trends-study-drop")}
                  </button>
                </p>
              )}
            </div>
          </div>
          <label class="field short">
            {t("trends-study-tolerance")}
            <input value={tolerance} autocomplete="off" onInput={(event) => setTolerance(event.currentTarget.value)} />
          </label>
          <div class="office-actions">
            <button type="submit" class="button main" disabled={busy || (!file && text.trim() === "")}>
              {t("trends-study-do")} <span>›</span>
            </button>
          </div>
        </form>
        {says && (
          <Notice kind="bad">
            {says.split(" · ").map((fault) => (
              <p key={fault}>{fault}</p>
            ))}
          </Notice>
        )}
        {study && <Found study={study} />}
      </div>
    </Frame>
  );
}

function Found({ study }: { study: Study }) {
  const { parts, operators, trials, categories } = study;
  const verdict = verdictOf(study.means);
  return (
    <section class="trend-found" role="status">
      <h2>{t("trends-study-found")}</h2>
      <p class="trend-verdict">
        <span aria-hidden="true">
          <Mark shape={verdict.shape} />
        </span>
        <b>{word("study", verdict.means)}</b>
      </p>
      <ul class="trend-means">
        {study.means
          .filter((one) => one !== verdict.means)
          .map((one) => (
            <li key={one}>{word("study", one)}</li>
          ))}
        <li>
          {categories === null ? t("trends-study-categories-all") : t("trends-study-categories", { count: categories })}
        </li>
        <li>{t("trends-study-size", { parts, operators, trials })}</li>
      </ul>
      <Components study={study} />
      <Analysis lines={study.pooled ? study.without_interaction : study.with_interaction} pooled={study.pooled} />
      <p class="small soft">{t("trends-study-limits")}</p>
    </section>
  );
}

function Components({ study }: { study: Study }) {
  const columns = ["source", "sd", "contribution", "study", ...(study.tolerance === null ? [] : ["tolerance-share"])];
  return (
    <table class="lines" aria-label={t("trends-study-components")}>
      <thead>
        <tr>
          {columns.map((name) => (
            <th key={name} scope="col">
              {t(`trends-study-${name}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {study.components.map((one) => (
          <tr key={one.source}>
            <th scope="row">{word("spread", one.source)}</th>
            <td data-cell={t("trends-study-sd")}>{figure(one.sd)}</td>
            <td data-cell={t("trends-study-contribution")}>{figure(one.contribution, 3)}</td>
            <td data-cell={t("trends-study-study")}>{figure(one.study, 3)}</td>
            {one.tolerance !== null && (
              <td data-cell={t("trends-study-tolerance-share")}>{figure(one.tolerance, 3)}</td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A p as it is commonly written: below one in ten thousand its figures say nothing more. */
function chance(p: number): string {
  return p < 0.0001 ? `< ${figure(0.0001)}` : figure(p, 2);
}

function Analysis({ lines, pooled }: { lines: Study["with_interaction"]; pooled: boolean }) {
  return (
    <>
      <h3>{t("trends-study-anova")}</h3>
      {pooled && <p class="small soft">{t("trends-study-pooled")}</p>}
      <table class="lines" aria-label={t("trends-study-anova")}>
        <thead>
          <tr>
            {["source", "squares", "degrees", "mean", "f", "p"].map((name) => (
              <th key={name} scope="col">
                {t(`trends-study-${name}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.source}>
              <th scope="row">{word("spread", line.source)}</th>
              <td data-cell={t("trends-study-squares")}>{figure(line.squares)}</td>
              <td data-cell={t("trends-study-degrees")}>{line.degrees}</td>
              <td data-cell={t("trends-study-mean")}>{figure(line.mean)}</td>
              <td data-cell={t("trends-study-f")}>{line.f !== null && figure(line.f)}</td>
              <td data-cell={t("trends-study-p")}>{line.p !== null && chance(line.p)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
