// The type declarations of the npm package's modules: those of engine and recipe that their entries lead to, and no
// others.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";

const root = join(import.meta.dirname, "../..");
const ENTRIES = ["engine/index", "recipe/index"];
const OPTIONS =
  "--ignoreConfig --declaration --emitDeclarationOnly --target es2022 --lib es2023,dom --module esnext --moduleResolution bundler " +
  "--strict --allowImportingTsExtensions --verbatimModuleSyntax --skipLibCheck --resolveJsonModule";

/** Writes them to dist/types. @returns how many files they are */
export function writeDeclarations() {
  mkdirSync(join(root, ".cache"), { recursive: true });
  const made = mkdtempSync(join(root, ".cache/types-"));
  try {
    const sources = ENTRIES.map((entry) => join(root, "extension", `${entry}.ts`));
    const tsc = join(root, "node_modules/typescript/bin/tsc");
    execFileSync(
      process.execPath,
      [tsc, ...sources, ...OPTIONS.split(" "), "--rootDir", join(root, "extension"), "--outDir", made],
      {
        stdio: ["ignore", "inherit", "inherit"],
      },
    );
    const reached = new Map();
    for (const entry of ENTRIES) reach(join(made, `${entry}.d.ts`));
    const out = join(root, "dist/types");
    rmSync(out, { recursive: true, force: true });
    for (const [path, text] of reached) {
      const to = join(out, relative(made, path));
      mkdirSync(dirname(to), { recursive: true });
      const beside = `${to}.${process.pid}`;
      writeFileSync(beside, text);
      renameSync(beside, to);
    }
    return reached.size;

    /** Takes a declaration and all that it names; a name's ending is the one that a JavaScript module would have. */
    function reach(path) {
      if (reached.has(path)) return;
      const from = existsSync(path) ? path : join(root, "extension", relative(made, path));
      const text = readFileSync(from, "utf8");
      reached.set(path, text.replaceAll(/(from "|import\(")(\.[^"]+)\.ts"/g, '$1$2.js"'));
      for (const [, name] of text.matchAll(/(?:from "|import\(")([^"]+)"/g)) {
        if (!name.startsWith("."))
          throw new Error(`${relative(made, path)} names ${name}, which the package does not carry.`);
        reach(join(dirname(path), name.replace(/\.ts$/, ".d.ts")));
      }
    }
  } finally {
    rmSync(made, { recursive: true, force: true });
  }
}
