/** Tests read the English catalogue, as the app's users do. */
import { readFileSync } from "node:fs";
import { speakFrom } from "./src/language";

speakFrom(readFileSync(new URL("./src/locales/en.ftl", import.meta.url), "utf8"), "en");
