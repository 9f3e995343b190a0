import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig(({ mode }) => ({
  plugins: [svelte()],
  resolve: {
    alias: {
      // Only the built window talks to Rust; tests and `npm run dev` talk to a stand-in that is never shipped.
      "#bridge": mode === "production" ? here("./src/bridge/index.ts") : here("./dev/bridge.ts"),
    },
    // Tests mount components, which needs Svelte's browser half.
    conditions: process.env.VITEST ? ["browser"] : undefined,
  },
  // The content policy allows files of our own only, so nothing is inlined as a data address.
  build: { target: "safari16", assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  test: { environment: "happy-dom", include: ["src/**/*.test.ts"] },
}));
