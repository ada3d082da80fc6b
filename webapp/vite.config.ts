import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

export default defineConfig({
  assetsInclude: ["**/*.ftl"],
  build: { target: "es2022", assetsInlineLimit: 0, sourcemap: false },
  server: { proxy: { "/api": "http://127.0.0.1:8000", "/openapi.json": "http://127.0.0.1:8000" } },
  plugins: [
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src",
      filename: "sw.ts",
      registerType: "prompt",
      injectRegister: false,
      injectManifest: {
        globPatterns: ["**/*.{js,css,html,svg,wasm,woff2,ftl}"],
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
