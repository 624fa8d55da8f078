import { defineConfig } from "vite";

// The script of a lesson's page: one file without imports, its music font inside, since the page stands alone.
export default defineConfig({
  publicDir: false,
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    outDir: "dist/lesson",
    target: "es2022",
    assetsInlineLimit: 1_000_000,
    chunkSizeWarningLimit: 1200,
    lib: { entry: "src/lesson/main.ts", formats: ["iife"], name: "lesson", fileName: () => "lesson.js", cssFileName: "lesson" },
  },
});
