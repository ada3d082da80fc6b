import { existsSync, readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/** Screens of the desk, by their folders: they work with the server alone, so no phone carries them ahead. */
const DESK = /\/src\/screens\/(office|review|trends)[/.]/;
const DESK_ASSETS = "assets/desk";
/** How long the desk's files of earlier builds stay, for pages that have not taken up the new version. */
const KEPT = 90 * 24 * 3_600_000;

/** Whatever the page may need without a desk screen: all that can be reached from it but through a desk screen. */
const floor = new Set<string>();

/**
 * Puts what only desk screens need into a folder of its own, by following the imports from the page; and keeps there what
 * earlier builds put into it, since an older page still asks for it. Its other files are in that page's own precache.
 */
function deskApart(): Plugin {
  const earlier = new Map<string, { bytes: Buffer; made: Date }>();
  let folder = "";
  return {
    name: "desk-apart",
    apply: "build",
    configResolved({ root, build }) {
      folder = resolve(root, build.outDir, DESK_ASSETS);
    },
    buildStart() {
      floor.clear();
      for (const name of existsSync(folder) ? readdirSync(folder) : []) {
        const file = resolve(folder, name);
        const made = statSync(file).mtime;
        if (Date.now() - made.getTime() < KEPT) earlier.set(file, { bytes: readFileSync(file), made });
      }
    },
    renderStart() {
      const open = [...this.getModuleIds()].filter((id) => this.getModuleInfo(id)?.isEntry);
      for (let id = open.pop(); id; id = open.pop()) {
        if (floor.has(id) || DESK.test(id)) continue;
        floor.add(id);
        const info = this.getModuleInfo(id);
        open.push(...(info?.importedIds ?? []), ...(info?.dynamicallyImportedIds ?? []));
      }
    },
    writeBundle() {
      for (const [file, { bytes, made }] of earlier) {
        if (existsSync(file)) continue;
        writeFileSync(file, bytes);
        utimesSync(file, made, made);
      }
    },
  };
}

/** The folder of a chunk by what is in it. */
function folderOf(modules: readonly string[]): string {
  return modules.length > 0 && modules.every((id) => !floor.has(id)) ? DESK_ASSETS : "assets";
}

export default defineConfig({
  assetsInclude: ["**/*.ftl"],
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    sourcemap: false,
    rolldownOptions: {
      output: {
        chunkFileNames: ({ moduleIds }) => `${folderOf(moduleIds)}/[name]-[hash].js`,
        assetFileNames: ({ originalFileNames: of }) =>
          `${of.length > 0 && of.every((name) => DESK.test(`/${name}`)) ? DESK_ASSETS : "assets"}/[name]-[hash][extname]`,
      },
    },
  },
  server: { proxy: { "/api": "http://127.0.0.1:8000", "/openapi.json": "http://127.0.0.1:8000" } },
  plugins: [
    deskApart(),
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src",
      filename: "sw.ts",
      registerType: "prompt",
      injectRegister: false,
      injectManifest: {
        globPatterns: ["**/*.{js,css,html,svg,wasm,woff2,ftl}"],
        globIgnores: [`${DESK_ASSETS}/**`],
        maximumFileSizeToCacheInBytes: 4_000_000,
      },
      manifest: {
        name: "Seamtag",
        short_name: "Seamtag",
        description: "Inspection record of welded boilers and pressure vessels",
        start_url: "/",
        display: "standalone",
        background_color: "#f6f5f0",
        theme_color: "#f6f5f0",
        icons: [{ src: "/icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
    }),
  ],
});
