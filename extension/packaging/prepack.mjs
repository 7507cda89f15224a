// What the npm package has beside the build: type declarations and the manual page. `npm pack` runs it after
// extension/build.mjs. Usage: node extension/packaging/prepack.mjs
import { execFileSync } from "node:child_process";
import { renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { writeDeclarations } from "./declarations.mjs";

const dist = join(import.meta.dirname, "../../dist");
const count = writeDeclarations();
const page = execFileSync(process.execPath, [join(dist, "rollbook.mjs"), "man"]);
const beside = join(dist, `rollbook.1.${process.pid}`);
writeFileSync(beside, page);
renameSync(beside, join(dist, "rollbook.1"));
console.log(`${count} declarations and a manual page in dist`);
