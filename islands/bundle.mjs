// Bundle each island into the folder that the workbench serves; run by bundle.py.

import { build } from "esbuild";

await build({
  entryPoints: ["src/bay.ts", "src/plots.ts"],
  outdir: process.argv[2] ?? "../src/drybuild/workbench/static/islands",
  outExtension: { ".js": ".mjs" },
  bundle: true,
  format: "esm",
  target: "es2022",
  minify: true,
  legalComments: "eof", // the licences of what is bundled go with it
  logLevel: "warning",
});
