import { render } from "preact";
import { App } from "./app";
import "./style.css";
import "./settings.css";
import "./measure.css";
import "./work.css";
import "./office.css";
import "./plans.css";
import "./step.css";
import "./ways.css";
import "./scan.css";
import "./tags.css";
import "./weld.css";
import { languageWanted, speak } from "./language";
import { startLocking } from "./locking";
import { listenForOffer } from "./offer";
import { fetchAll } from "./parts/lazily";
import { showSettings } from "./settings";
import { joinTabs } from "./store/jobs";
import { NotSavedError } from "./store/records";
import { startSync } from "./sync/loop";
import { startWorker } from "./update";

const root = document.getElementById("app");
listenForOffer();
showSettings();
// Messages by their names are better than an empty page, where a catalogue cannot be had.
await speak(languageWanted())
  .catch(() => speak("en"))
  .catch(console.error);
if (root) render(<App />, root);
// What was not saved is said on the screen, whichever screen it was.
addEventListener("unhandledrejection", (event) => event.reason instanceof NotSavedError && event.preventDefault());
joinTabs();
startSync();
startLocking();
void startWorker();
setTimeout(fetchAll, 1500);
