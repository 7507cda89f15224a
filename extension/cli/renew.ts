/** `rollbook new --update`: renews the automatic values of a roll that was created earlier. */
import { resolve } from "node:path";
import { applyChanges } from "../recipe/edit/edit.ts";
import { loadRoll } from "../recipe/resolve/workspace.ts";
import { GROUPS, type Group } from "../work/new-roll/renew/automatic-values.ts";
import { type KeptItem, type Renewal, type RenewalItem, renewRoll } from "../work/new-roll/renew/renew-roll.ts";
import { renewalChanges } from "../work/new-roll/renew/renewal-text.ts";
import { keptText, unitName, valueText } from "../work/new-roll/renew/value-text.ts";
import { replaceRecipe } from "./change.ts";
import { workspaceFor } from "./load.ts";
import { withPool } from "./programs.ts";
import { ROLL_ENDINGS } from "../work/files/output-file.ts";
import { type Call, EXIT, flag, text, UsageError, whole } from "./verb.ts";

/** Options of `new` that say what a recipe of an earlier roll says itself. */
const OF_NEW = [
  "out",
  "stock",
  "film-data",
  "film",
  "from",
  "to",
  "title",
  "format",
  "blank",
  "first",
  "turn",
  "mirror",
  "schema",
];

export async function renew(call: Call, file: string): Promise<number> {
  const { terminal, signal, files } = call;
  const request = { groups: groupsOf(text(call, "only")), overwrite: flag(call, "overwrite") };
  const other = OF_NEW.find((name) => call.options[name] !== undefined && call.options[name] !== false);
  if (other) throw new UsageError(`--${other} is for a new roll; with --update the recipe itself says it.`);
  if (!ROLL_ENDINGS.some((ending) => file.toLowerCase().endsWith(ending)))
    throw new UsageError(`--update takes a roll's recipe, and "${file}" does not end in ${ROLL_ENDINGS[0]}.`);
  const workspace = workspaceFor(call, file);
  const loaded = await loadRoll(workspace.inside(file), workspace);
  if (!loaded) throw new UsageError(`There is no recipe ${file}.`);
  const folder = loaded.resolved && workspace.absolute(loaded.resolved.scans);
  if (files[0] !== undefined && folder !== undefined && resolve(files[0]) !== folder)
    throw new UsageError(`The scans of ${file} are in ${folder}, not in ${files[0]}. Leave the folder out.`);
  const renewal = await withPool(whole(call, "workers", 1, 64), (pool) =>
    renewRoll(loaded, request, workspace, pool, {
      signal,
      onProgress: (done, total, label) => terminal.progress(done, total, label),
    }),
  );
  signal.throwIfAborted();
  terminal.clear();
  const before = loaded.roll.text;
  const after = applyChanges(before, renewalChanges(before, renewal, renewal.renewed));
  const target = workspace.absolute(loaded.roll.file);
  const isWritten = after !== before && (await replaceRecipe(call, target, before, after));
  report(call, file, renewal, isWritten);
  return renewal.unreadable.length > 0 ? EXIT.problems : EXIT.good;
}

function groupsOf(only: string | undefined): readonly Group[] {
  if (only === undefined) return GROUPS;
  const names = only.split(",").map((name) => name.trim());
  const wrong = names.find((name) => !GROUPS.includes(name as Group));
  if (wrong !== undefined) throw new UsageError(`--only takes some of ${GROUPS.join(", ")}, not "${wrong}".`);
  return names as Group[];
}

function report({ terminal }: Call, recipe: string, renewal: Renewal, isWritten: boolean): void {
  const { renewed, kept, warnings, unreadable } = renewal;
  for (const warning of warnings) terminal.printError(warning);
  for (const { name, reason } of unreadable) terminal.printError(`${name} was left out: ${reason}`);
  for (const item of renewed)
    terminal.print(`renewed  ${unitName(item).padEnd(22)} ${valueText(item.before)} → ${valueText(item.after)}`);
  for (const item of kept)
    terminal.print(`kept     ${unitName(item).padEnd(22)} ${valueText(item.before)}, ${keptText(item)}`);
  const count = `${renewed.length} renewed, ${kept.length} kept`;
  terminal.print(isWritten ? `${recipe}: ${count}.` : `${recipe} was not changed: ${count}.`);
  terminal.result({
    ok: true,
    recipe,
    written: isWritten,
    renewed: renewed.map(row),
    kept: kept.map((item: KeptItem) => ({ ...row(item), reason: item.reason })),
    warnings,
    unreadable,
  });
}

/** A value as data: keys of the recipe with what they stated and what was found. */
function row({ state: { unit, at, frame }, before, after }: RenewalItem) {
  const keyed = (values: RenewalItem["before"]) =>
    Object.fromEntries(
      unit.paths.flatMap((path, i) => (values[i] === undefined ? [] : [[[...at, ...path].join("."), values[i]]])),
    );
  return {
    group: unit.group,
    value: unit.name,
    ...(frame === undefined ? {} : { frame }),
    stated: keyed(before),
    found: keyed(after),
  };
}
