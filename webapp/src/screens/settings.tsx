/** Settings of this phone: language, keys for gloves, contrast for the sun, sound, vibration, the hand that holds it. */
import { LANGUAGES, type Language, speak, spoken, t } from "../language";
import { tell } from "../parts/feedback";
import { Frame } from "../parts/frame";
import { choose, type Settings, settings } from "../settings";
import { linkTo, me } from "../state";
import { KeptOnPhone } from "./installing";

const SWITCHES: readonly (keyof Settings)[] = ["gloves", "outdoor", "left", "vibration", "sound"];

export function SettingsScreen() {
  return (
    <Frame title={me.value ? t("frame-my-work") : t("settings-back")} back={linkTo("")}>
      <div class="body">
        <h1>{t("settings")}</h1>
        <fieldset class="choices">
          <legend>{t("settings-language")}</legend>
          <div class="pair">
            {(Object.keys(LANGUAGES) as Language[]).map((one) => (
              <button
                key={one}
                type="button"
                class="station"
                lang={one}
                aria-pressed={spoken.value === one}
                onClick={() => void speak(one, true)}
              >
                {LANGUAGES[one]}
              </button>
            ))}
          </div>
        </fieldset>
        <ul class="list">
          {SWITCHES.map((name) => (
            <li key={name}>
              <Switch name={name} />
            </li>
          ))}
        </ul>
        <button type="button" class="button" onClick={() => tell("bad")}>
          {t("settings-try")}
        </button>
        <KeptOnPhone />
      </div>
    </Frame>
  );
}

function Switch({ name }: { name: keyof Settings }) {
  return (
    <label class="row check">
      <span class="grow">
        <b>{t(`settings-${name}`)}</b>
        <br />
        <span class="small soft">{t(`settings-${name}-says`)}</span>
      </span>
      <input
        type="checkbox"
        checked={settings.value[name]}
        onChange={(event) => choose(name, event.currentTarget.checked)}
      />
    </label>
  );
}
