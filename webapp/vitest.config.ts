import { defineConfig } from "vitest/config";

export default defineConfig({
  assetsInclude: ["**/*.ftl"],
  test: { environment: "node", include: ["src/**/*.test.ts"], setupFiles: ["./vitest.setup.ts"] },
});
