/** `rollbook new`: creates a roll from a folder of scans. */
import { existsSync } from "node:fs";
import { relative, resolve, sep } from "node:path";
import { FILM_SOURCE } from "../engine/film/library/index.ts";
import type { Film } from "../engine/types.ts";
import { schemaLine } from "../recipe/schema/schema-line.ts";
import { openOutput, ROLL_ENDINGS, STOCK_ENDINGS } from "../work/files/output-file.ts";
import type { EdgeReading } from "../work/new-roll/edge/edge-codes.ts";
import { shutterText, unmixText } from "../work/new-roll/recipe/roll-text.ts";
import { stockPathOf } from "../work/new-roll/film/stock-look.ts";
import { valueSources } from "../work/new-roll/recipe/value-sources.ts";
import { startRoll } from "../work/new-roll/new-roll.ts";
import type { StartedRoll } from "../work/new-roll/started-roll.ts";
import { openWorkspace, workspaceOf } from "../work/files/workspace.ts";
import { DRY_RUN_OPTION, writeOutput } from "./dry-run.ts";
import { FORMAT_OPTION, readFormat } from "./film-format.ts";
import { ROOT_OPTION } from "./load.ts";
import { withPool } from "./programs.ts";
import { renew } from "./renew.ts";
import { type Call, EXIT, flag, text, UsageError, type Verb, whole } from "./verb.ts";

const KINDS: readonly Film[] = ["colour-negative", "black-and-white-negative", "slide"];

export const newRoll: Verb = {
  name: "new",
  summary: "create a roll from a folder of scans",
  usage: "FOLDER [--stock STOCK] [--film-data NAME] -o ROLL\n       rollbook new --update ROLL [--only VALUES]",
  details:
    "Looks through the scans of a folder and writes a roll's recipe: tells blank, leader and pictures apart, reads the\n" +
    "film's base where it finds it, finds each picture's rectangle and tilt, sets one filtration for the roll and an\n" +
    "exposure for each frame. What was measured has a comment. Orientation is not guessed: give --turn or --mirror for\n" +
    "the whole roll, or write them for single frames.\n" +
    "With --update the automatic values of an earlier roll are found again. Values that a person changed since are kept\n" +
    "and named; the recipe holds digests of the automatic ones, by which the two are told apart.",
  example: "rollbook new scans --stock ../stocks/northlight-400.stock.yaml -o harbour.roll.yaml",
  options: {
    stock: { value: "STOCK", help: "the stock's recipe, whose curve, matrices and look the roll inherits" },
    "film-data": {
      value: "NAME",
      help: 'write the stock\'s recipe from a published film, see "rollbook films" (to --stock, or beside the roll)',
    },
    out: { value: "ROLL", short: "o", help: "the recipe to write, NAME.roll.yaml" },
    film: {
      value: "KIND",
      help: "kind of film where the scans mislead: colour-negative, black-and-white-negative or slide",
    },
    from: { value: "SCAN", help: "first picture of the roll, where the folder holds others too" },
    to: { value: "SCAN", help: "last picture of the roll" },
    title: { value: "TEXT", help: "the roll's title (default: the recipe's name)" },
    format: FORMAT_OPTION,
    blank: { value: "FILE", help: "scan of the bare light (blank), where it is not recognised automatically" },
    first: {
      value: "N",
      help: "number of the first frame (default: as on the film's edge where it is in view, else 1)",
    },
    turn: { value: "DEGREES", help: "90, 180 or 270: turns every picture clockwise" },
    mirror: { help: "the emulsion faced the camera: swaps left and right of every picture" },
    workers: { value: "N", help: "scans decoded at once (default: one per processor core, at most 8)" },
    schema: { value: "FILE", help: 'begin with a line that names this schema, as "rollbook schema -o FILE" wrote it' },
    overwrite: {
      help: "replace the recipe if it is there already; with --update, renew what a person changed as well",
    },
    update: { value: "ROLL", help: "renew the automatic values of this recipe" },
    only: { value: "VALUES", help: "which to renew: some of base,filtration,exposure,area (default: all)" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [0, 1],
  async run(call) {
    const { terminal, signal } = call;
    const update = text(call, "update");
    if (update !== undefined) return renew(call, update);
    const options = newRollOptions(call);
    const firstLine = firstLineOf(call);
    const overwrite = flag(call, "overwrite");
    const output = openOutput({ file: text(call, "out") ?? "", endings: ROLL_ENDINGS, overwrite });
    const stockOutput =
      options.filmData === undefined
        ? undefined
        : openOutput({ file: relative(".", options.stock!), endings: STOCK_ENDINGS, overwrite });
    const root = text(call, "root");
    const workspace = root ? openWorkspace(root) : workspaceOf(options.roll);
    for (const path of [options.folder, options.roll, options.stock])
      if (path !== undefined) workspace.absolute(workspace.inside(path));
    const onProgress = (done: number, total: number, label: string): void => terminal.progress(done, total, label);
    const started = await withPool(whole(call, "workers", 1, 64), (pool) =>
      startRoll(options, workspace, pool, { signal, onProgress }),
    );
    signal.throwIfAborted();
    const recipeText = firstLine + started.text;
    if (started.filmStock && stockOutput)
      await writeOutput(call, stockOutput, relative(".", options.stock!), started.filmStock.text);
    if (!(await writeOutput(call, output, text(call, "out")!, recipeText)))
      for (const line of recipeText.trimEnd().split("\n")) terminal.print(`+ ${line}`);
    printSummary(call, started);
    const { text: _, filmStock, ...report } = started;
    const stock = filmStock && {
      film: filmStock.name,
      recipe: relative(".", filmStock.path),
      camera: filmStock.cameraFrom,
      data: FILM_SOURCE,
    };
    terminal.result({
      ok: true,
      recipe: text(call, "out"),
      ...(stock ? { stock } : {}),
      sources: valueSources(started),
      ...report,
    });
    return started.unreadable.length > 0 ? EXIT.problems : EXIT.good;
  },
};

function newRollOptions(call: Call) {
  if (call.files.length === 0)
    throw new UsageError('"rollbook new" needs the folder of the scans, or --update with a recipe.');
  if (text(call, "only") !== undefined) throw new UsageError("--only goes with --update.");
  const out = text(call, "out");
  if (out === undefined) throw new UsageError('"rollbook new" needs the recipe to write: -o NAME.roll.yaml.');
  const format = readFormat(text(call, "format"));
  const turn = whole(call, "turn", 0, 270) ?? 0;
  if (turn !== 0 && turn !== 90 && turn !== 180 && turn !== 270)
    throw new UsageError(`--turn takes 90, 180 or 270, not ${turn}.`);
  const film = text(call, "film");
  if (film !== undefined && !KINDS.includes(film as Film))
    throw new UsageError(`--film takes one of ${KINDS.join(", ")}, not "${film}".`);
  const filmData = text(call, "film-data");
  const stock = text(call, "stock") ?? (filmData && stockPathOf(filmData, out));
  if (filmData !== undefined && !/\.stock\.ya?ml$/i.test(stock!))
    throw new UsageError(`A stock's name ends in .stock.yaml; "${stock}" does not.`);
  return {
    folder: resolve(call.files[0]),
    roll: resolve(out),
    ...(stock === undefined ? {} : { stock: resolve(stock) }),
    ...(filmData === undefined ? {} : { filmData }),
    title: text(call, "title"),
    format,
    blank: text(call, "blank"),
    first: whole(call, "first", 0, 999),
    mirror: flag(call, "mirror") || undefined,
    film: film as Film | undefined,
    from: text(call, "from"),
    to: text(call, "to"),
    turn,
  } as const;
}

/** The recipe's first line that names its schema; empty without --schema. */
function firstLineOf(call: Call): string {
  const file = text(call, "schema");
  if (file === undefined) return "";
  if (!existsSync(file))
    throw new UsageError(`There is no schema ${file}. Write it with: rollbook schema roll -o ${file}`);
  const [recipe, schema] = [text(call, "out") ?? "", file].map((path) => resolve(path).split(sep).join("/"));
  return schemaLine(recipe, schema);
}

const signed = (v: number): string => (v < 0 ? "−" : "+") + Math.abs(v).toFixed(2);
const cc = (v: number): string => (v < 0 ? "−" : "+") + Math.abs(v);

function printSummary({ terminal }: Call, started: StartedRoll): void {
  for (const warning of started.warnings) terminal.printError(warning);
  for (const { name, reason } of started.unreadable) terminal.printError(`${name} was left out: ${reason}`);
  if (started.blank) terminal.print(`blank       ${started.blank}`);
  if (started.leaders.length) terminal.print(`leader      ${started.leaders.join(", ")}`);
  if (started.duplicates.length)
    terminal.print(`duplicates  ${started.duplicates.join(", ")} (a better file of the same name exists)`);
  if (started.filmStock)
    terminal.print(`stock       ${started.filmStock.name}, written to ${relative(".", started.filmStock.path)}`);
  if (started.edge) printEdge(terminal, started.edge);
  if (started.second) {
    const { first, second, reason } = started.second;
    terminal.printError(
      `These may be two rolls: the ${reason} differs from ${second[0]} on. Create them one by one: ` +
        `--from ${first[0]} --to ${first[1]}, and --from ${second[0]} --to ${second[1]}.`,
    );
  }
  const { base, difference, balance, unmix, shutter } = started;
  if (base) terminal.print(`base        ${base.density.map((d) => d.toFixed(3)).join("  ")}  on ${base.scan}`);
  if (difference) terminal.print(`            ${difference.words}`);
  if (shutter?.times === "nominal") terminal.print(`shutter     nominal. ${shutterText(shutter)}`);
  if (unmix) terminal.print(`unmix       ${unmixText(unmix)}`);
  const { film, start, advice } = started;
  if (film.from === "inferred")
    terminal.print(`film        ${film.film}, inferred from the scans (${Math.round(100 * film.certainty)} % sure)`);
  const { cyan, magenta, yellow } = balance.filtration;
  if (!start)
    terminal.print(
      `filtration  cyan ${cc(cyan)}  magenta ${cc(magenta)}  yellow ${cc(yellow)}  relative to the stock's`,
    );
  if (start?.axis)
    terminal.print(
      `balance     inferred from the pictures; greys are expected within ΔC*ab ${start.cast!.toFixed(0)}, ` +
        `base ${start.base.from}, brightness ${start.brightness}`,
    );
  for (const line of advice) terminal.print(`            ${line}`);
  for (const { id, scans, found, exposure } of started.frames) {
    const where = found ? `edges ${Math.round(100 * found.confidence)} %` : "edges not found: the whole scan";
    terminal.print(`frame ${id.padEnd(5)} ${scans.join(" + ").padEnd(24)} ${where.padEnd(34)} ${signed(exposure)} EV`);
  }
}

/** What the film's edge says, with its evidence. */
function printEdge(
  terminal: Call["terminal"],
  { film, pictures, of, names, published, frames, mirrored }: EdgeReading,
): void {
  const read = frames.filter((f) => f !== undefined);
  terminal.print(
    `edge code   ${film} on ${pictures} of ${of} pictures${read.length > 0 ? `, frames ${read.join(" ")}` : ""}`,
  );
  for (const { name, year } of names) terminal.print(`            ${name}${year ? ` (${year})` : ""}`);
  if (names.length > 1)
    terminal.print("            Several films carry this code; name yours with --film-data or --stock.");
  if (published) terminal.print(`            Published data: --film-data "${published.name}"`);
  if (mirrored) terminal.print("            The code lies mirrored: the emulsion faced the camera.");
}
