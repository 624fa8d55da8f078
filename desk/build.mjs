// Builds the page for the program's jar, if anything it is made from has changed since it was last built.
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const built = join(here, "dist", "index.html");
const installed = join(here, "node_modules", ".package-lock.json");
const sources = ["src", "public", "index.html", "package.json", "package-lock.json", "tsconfig.json", "vite.config.ts", "vite.lesson.config.ts"];

function newest(path) {
  if (!existsSync(path)) {
    return 0;
  }
  const facts = statSync(path);
  const inside = facts.isDirectory() ? readdirSync(path).map((name) => newest(join(path, name))) : [];
  return Math.max(facts.mtimeMs, ...inside);
}

function changed(path) {
  return existsSync(path) ? statSync(path).mtimeMs : 0;
}

function npm(...words) {
  const windows = process.platform === "win32";
  execFileSync(windows ? "npm.cmd" : "npm", words, { cwd: here, stdio: "inherit", shell: windows });
}

if (existsSync(join(here, "package.json")) && newest(built) < Math.max(...sources.map((name) => newest(join(here, name))))) {
  if (changed(installed) < changed(join(here, "package-lock.json"))) {
    npm("ci", "--no-audit", "--no-fund");
  }
  npm("run", "build", "--silent");
}
