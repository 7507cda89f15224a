/** `rollbook watch`: judges each new scan of a folder and adds it to the roll. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { type CopyStand, openCopyStand } from "../work/copy-stand/copy-stand.ts";
import type { RecipeText } from "../work/copy-stand/recipe/growing-recipe.ts";
import { lineOf, openPoints, reportOf } from "../work/copy-stand/report.ts";
import { cacheFolder } from "../work/files/cache/cache-folder.ts";
import { openWorkspace, workspaceOf } from "../work/files/workspace.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { FORMAT_OPTION, readFormat } from "./film-format.ts";
import { ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { recipeFile, unwrittenRecipe } from "./watch-recipe.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

export const watch: Verb = {
  name: "watch",
  summary: "judge every scan at the copy stand, as it is taken",
  usage: "FOLDER [-o ROLL] [--stock STOCK]",
  details:
    "Watches the folder that camera, card reader or another program writes scans to. As soon as a scan is complete on\n" +
    "disk it gets a verdict in one line: good, look (look at it before you go on) or again (photograph it again), with\n" +
    "the reason and what to do. With -o the roll's recipe grows by each frame; a scan of the same picture takes the place\n" +
    "of the one before, whose file stays on disk and is listed as unused. Ctrl-C ends it with a summary; started again it\n" +
    "goes on where it was. With --json each line is a JSON object with an event. Exit code 1 when a frame is left that is\n" +
    "to be photographed again. docs/copy-stand.md shows a session.",
  example: "rollbook watch scans -o harbour.roll.yaml --stock ../stocks/northlight-400.stock.yaml --bell",
  options: {
    out: {
      value: "ROLL",
      short: "o",
      help: "the recipe to add frames to, NAME.roll.yaml; created if missing",
    },
    stock: { value: "STOCK", help: "the stock's recipe, for a roll that is created" },
    title: { value: "TEXT", help: "the roll's title, for a roll that is created (default: the recipe's name)" },
    format: FORMAT_OPTION,
    blank: { value: "FILE", help: "scan of the bare light, where it is not recognised automatically" },
    first: { value: "N", help: "number of the first frame, as on the film's edge (default 1)" },
    turn: { value: "DEGREES", help: "90, 180 or 270: turns every picture clockwise" },
    mirror: { help: "the emulsion faced the camera: swaps left and right of every picture" },
    test: { help: "test shots for setting up: they are judged and add no frames" },
    bell: { help: "ring the terminal's bell: once for look, twice for again" },
    poll: {
      help: "poll the folder every second instead of waiting for file events; automatic on network disks",
    },
    once: { help: "judge the scans in the folder, then exit" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [1, 1],
  async run(call) {
    const { terminal, signal } = call;
    const folder = resolve(call.files[0]);
    const out = text(call, "out");
    if (out !== undefined && !/\.roll\.ya?ml$/i.test(out))
      throw new UsageError(`A roll's name ends in .roll.yaml; "${out}" does not.`);
    const root = text(call, "root");
    const workspace = root ? openWorkspace(root) : workspaceOf(out ?? join(folder, "roll.yaml"));
    const stock = text(call, "stock");
    for (const path of [folder, out, stock]) if (path !== undefined) workspace.absolute(workspace.inside(path));
    return await withPool(1, async (pool) => {
      const stand = openCopyStand(
        {
          folder,
          ...(out === undefined ? {} : { recipe: recipeOf(call, out) }),
          ...(stock === undefined ? {} : { stock: resolve(stock) }),
          title: text(call, "title"),
          format: readFormat(text(call, "format")),
          blank: text(call, "blank"),
          first: whole(call, "first", 0, 999),
          turn: turnOf(call),
          mirror: flag(call, "mirror"),
          cache: { folder: isDryRun(call) ? ownCache() : join(cacheFolder(), "copy-stand"), maxBytes: MAX_BYTES },
          ...(flag(call, "poll") ? { polling: true } : {}),
        },
        workspace,
        pool,
        {
          onArrived(name) {
            terminal.progress(1, 2, name);
            terminal.event({ event: "arrived", scan: name });
          },
          onPositive: (name) => terminal.event({ event: "positive", scan: name }),
          onVerdict(judged, tally, seconds) {
            const report = reportOf(judged, stand.session());
            terminal.report(lineOf(report));
            if (flag(call, "test")) terminal.print(focusLine(report.focus));
            terminal.event({ event: "scan", ...report, seconds: Number(seconds.toFixed(2)), tally });
            if (flag(call, "bell"))
              process.stderr.write({ good: "", look: "\u0007", again: "\u0007\u0007" }[report.verdict]);
          },
          onRecalled: ({ name, verdict, frame }) =>
            terminal.event({ event: "known", scan: name, verdict: verdict.word, frame }),
          onRenamed(from, name) {
            terminal.print(`${from} was renamed to ${name}.`);
            terminal.event({ event: "renamed", from, scan: name });
          },
          onDeleted(name) {
            terminal.printError(`${name} was deleted; the recipe still names it if it is a frame's scan.`);
            terminal.event({ event: "deleted", scan: name });
          },
          onFolder(present) {
            terminal.printError(present ? `${folder} is there again.` : `${folder} is missing; waiting for it.`);
            terminal.event({ event: "folder", present });
          },
          onFailure(message) {
            terminal.printError(message);
            terminal.event({ event: "failure", message });
          },
        },
      );
      stand.setTesting(flag(call, "test"));
      terminal.print(`Watching ${folder}${stand.polling ? ", polled every second" : ""}. Press Ctrl-C to end.`);
      terminal.event({ event: "watching", folder, polling: stand.polling });
      await Promise.race([flag(call, "once") ? stand.ready : new Promise(() => {}), aborted(signal)]);
      await stand.close();
      return await summarise(call, stand);
    });
  },
};

/** Judged scans of many rolls: one takes about a megabyte with its positive. */
const MAX_BYTES = 2e9;

const recipeOf = (call: Call, out: string): RecipeText =>
  isDryRun(call) ? unwrittenRecipe(resolve(out), out, call.terminal) : recipeFile(resolve(out));

/** A dry run leaves nothing behind that a later session would go on from: scans would count as added. */
function ownCache(): string {
  const folder = mkdtempSync(join(tmpdir(), "rollbook-watch-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

const aborted = (signal: AbortSignal): Promise<void> =>
  new Promise((done) => (signal.aborted ? done() : signal.addEventListener("abort", () => done(), { once: true })));

async function summarise({ terminal }: Call, stand: CopyStand): Promise<number> {
  const tally = await stand.tally();
  const points = openPoints(tally);
  terminal.print(
    `${tally.frames} frames: ${tally.good} good, ${tally.look} to look at, ${tally.again} to be taken again.`,
  );
  for (const point of points) terminal.print(point);
  terminal.event({ event: "summary", ...tally, points });
  return tally.again > 0 ? EXIT.problems : EXIT.good;
}

function focusLine(focus: ReturnType<typeof reportOf>["focus"]): string {
  const places = Object.entries(focus).map(([place, { response, change, best }]) => {
    const of = best === undefined ? "" : ` of ${best.toFixed(0)}`;
    return `${PLACES[place] ?? place} ${response.toFixed(0)}${of} %${change ? ` ${change}` : ""}`;
  });
  return places.length === 0 ? "       Focus: no even grain to measure it on." : `       Focus: ${places.join(", ")}`;
}

const PLACES: Readonly<Record<string, string>> = {
  middle: "middle",
  topLeft: "top left",
  topRight: "top right",
  bottomLeft: "bottom left",
  bottomRight: "bottom right",
};

function turnOf(call: Call): 0 | 90 | 180 | 270 {
  const turn = whole(call, "turn", 0, 270) ?? 0;
  if (turn !== 0 && turn !== 90 && turn !== 180 && turn !== 270)
    throw new UsageError(`--turn takes 90, 180 or 270, not ${turn}.`);
  return turn;
}
