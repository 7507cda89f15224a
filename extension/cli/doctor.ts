/** `rollbook doctor`: what a report of a fault should say of the program and the computer. */
import { availableParallelism, cpus, release, totalmem } from "node:os";
import { aboutCodecsJob } from "../work/about/jobs.ts";
import { cacheFolder } from "../work/files/cache/cache-folder.ts";
import { cacheEntries, totalBytes } from "../work/files/cache/cache-entries.ts";
import { runGit } from "../work/review/git/git-command.ts";
import { MAX_PIXELS } from "../scans/limits.ts";
import { errorText } from "../scans/files/system-errors.ts";
import { VERSION } from "../work/files/version.ts";
import { MAX_WORKERS, withPool } from "./programs.ts";
import { EXIT, type Verb } from "./verb.ts";

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;

export const doctor: Verb = {
  name: "doctor",
  summary: "report versions, decoders, codecs, cache and limits",
  usage: "",
  details:
    "Starts a worker, loads decoders and codecs in it, and prints what a report of a fault needs: versions, cores, memory,\n" +
    "file types, cache and limits. Nothing is sent anywhere. Exit code 1 when a part cannot be loaded.",
  example: "rollbook doctor",
  options: {},
  files: [0, 0],
  async run({ terminal, signal }) {
    const lines: [name: string, value: string][] = [];
    const problems: string[] = [];
    const folder = cacheFolder();
    const entries = await cacheEntries(folder);
    const cores = availableParallelism();
    lines.push(
      ["rollbook", VERSION],
      ["node", process.version],
      ["system", `${process.platform} ${process.arch}, ${release()}`],
      ["processor", `${cpus()[0]?.model.trim() ?? "unknown"}, ${cores} cores, ${Math.min(cores, MAX_WORKERS)} workers`],
      ["memory", `${(totalmem() / 1e9).toFixed(1)} GB`],
    );
    const git = await runGit(["--version"], { cwd: process.cwd(), signal }).then(
      ({ stdout }) => stdout.toString("utf8").trim().replace("git version ", ""),
      errorText,
    );
    lines.push(["git", git]);
    const about = await withPool(1, (pool) => pool.run(aboutCodecsJob, {}, { signal })).catch((error: unknown) => {
      problems.push(`No worker answered: ${errorText(error)}`);
      return undefined;
    });
    for (const [name, part] of Object.entries(about?.parts ?? {})) {
      lines.push([name, part.problem ?? part.version ?? "loaded"]);
      if (part.problem) problems.push(`${name}: ${part.problem}`);
    }
    if (about) lines.push(["reads", about.reads.join(", ")], ["writes", about.writes.join(", ")]);
    lines.push(
      ["cache", `${folder}, ${entries.length} entries, ${megabytes(totalBytes(entries))}`],
      ["largest scan", `${MAX_PIXELS / 1e6} megapixels`],
      ...Object.entries(process.env)
        .filter(([name]) => name.startsWith("ROLLBOOK_") || name === "NO_COLOR")
        .map(([name, value]): [string, string] => [name, value ?? ""]),
    );
    const width = Math.max(...lines.map(([name]) => name.length));
    for (const [name, value] of lines) terminal.print(`${name.padEnd(width)}  ${value}`);
    for (const problem of problems) terminal.printError(`error ${problem}`);
    terminal.result({ ok: problems.length === 0, ...Object.fromEntries(lines), problems });
    return problems.length > 0 ? EXIT.problems : EXIT.good;
  },
};
