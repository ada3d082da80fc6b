import { render } from "preact";
import { App } from "./app";
import "./style.css";
import "./measure.css";
import "./review.css";
import { startSync } from "./sync/loop";
import { startWorker } from "./update";

const root = document.getElementById("app");
if (root) render(<App />, root);
startSync();
void startWorker();
