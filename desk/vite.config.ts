import { defineConfig } from "vite";

export default defineConfig({
  base: "/",
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  // Nothing is inlined as data: the page's rules let scripts, styles and fonts come from the desk alone.
  build: { outDir: "dist", assetsInlineLimit: 0, target: "es2022", modulePreload: { polyfill: false }, chunkSizeWarningLimit: 700 },
  worker: { format: "es" },
});
