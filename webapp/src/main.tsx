import { render } from "preact";
import { App, fetchAhead } from "./app";
import "./style.css";
import "./measure.css";
import "./review.css";
import { languageWanted, speak } from "./language";
import { showSettings } from "./settings";
import { joinTabs } from "./store/jobs";
import { NotSavedError } from "./store/records";
import { startSync } from "./sync/loop";
import { startWorker } from "./update";

const root = document.getElementById("app");
showSettings();
await speak(languageWanted());
if (root) render(<App />, root);
// What was not saved is said on the screen, whichever screen it was.
addEventListener("unhandledrejection", (event) => event.reason instanceof NotSavedError && event.preventDefault());
joinTabs();
startSync();
void startWorker();
setTimeout(fetchAhead, 1500);
