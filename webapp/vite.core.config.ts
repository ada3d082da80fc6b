/** Builds the core alone for Node.js, as one file that answers the differential test (tests/core/differential.py). */
import { defineConfig } from "vite";

export default defineConfig({
  publicDir: false,
  logLevel: "warn",
  build: {
    ssr: "src/core/answers.ts",
    outDir: "build",
    target: "node20",
    rolldownOptions: { output: { entryFileNames: "core.js" } },
  },
  ssr: { noExternal: true },
});
