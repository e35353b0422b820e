// Bundle each island into the folder that the workbench serves; run by bundle.py.

import { readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const outdir = new URL("../src/drybuild/workbench/static/islands/", import.meta.url);

await build({
  absWorkingDir: fileURLToPath(new URL(".", import.meta.url)),
  entryPoints: ["src/bay.ts", "src/frame.ts", "src/plots.ts"],
  outdir: "../src/drybuild/workbench/static/islands",
  outExtension: { ".js": ".mjs" },
  bundle: true,
  format: "esm",
  target: "es2022",
  minify: true,
  legalComments: "none", // they go beside it, whole
  logLevel: "warning",
});

const licence = async (name) => `${name}\n\n${await readFile(new URL(`node_modules/${name}/LICENSE`, import.meta.url), "utf8")}`;
await writeFile(new URL("licences.txt", outdir), (await Promise.all(["three", "uplot"].map(licence))).join("\n\n"));
