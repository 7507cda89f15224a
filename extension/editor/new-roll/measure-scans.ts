/** Looks through the scans of a new roll, and asks what they leave open: kind of film, numbers of the frames, two rolls. */
import * as vscode from "vscode";
import { stockPathOf } from "../../work/new-roll/film/stock-look.ts";
import type { NewRollOptions } from "../../work/new-roll/new-roll.ts";
import { startRoll } from "../../work/new-roll/new-roll.ts";
import type { StartedRoll } from "../../work/new-roll/started-roll.ts";
import type { Workspace } from "../../work/files/workspace.ts";
import type { Pool } from "../../work/pool/pool.ts";
import { withProgress } from "../roll-work/with-progress.ts";
import { kindChoices, kindName } from "./choices.ts";
import { type Choice, choose, type Step } from "./steps.ts";

/** What a kind of film is less certain than is asked for. */
const SURE = 0.9;

/** One roll, or the two that a folder holds, each with the options that it was made with. */
export interface MeasuredScans {
  readonly options: NewRollOptions;
  readonly started: StartedRoll;
}

export interface MeasureWith {
  readonly workspace: Workspace;
  readonly pool: Pool;
  readonly log: vscode.LogOutputChannel;
}

/** Undefined when the person cancels, or the scans cannot be used and that was said. */
export async function measureScans(options: NewRollOptions, tools: MeasureWith): Promise<MeasuredScans[] | undefined> {
  const first = await measured(options, tools);
  if (!first) return undefined;
  const answers: NewRollOptions | undefined = await answersFor(first, options);
  if (!answers) return undefined;
  const { second } = first;
  const apart = second ? await askApart(second, options) : false;
  if (apart === undefined) return undefined;
  if (!apart || !second) {
    const started = answers === options ? first : await measured(answers, tools);
    return started && [{ options: answers, started }];
  }
  const rolls: MeasuredScans[] = [];
  for (const [i, [from, to]] of [second.first, second.second].entries()) {
    const own = { ...answers, from, to, roll: numbered(options.roll, i + 1) };
    const started = await measured(own, tools);
    if (!started) return undefined;
    rolls.push({ options: own, started });
  }
  return rolls;
}

/** "harbour-2.roll.yaml" */
const numbered = (roll: string, n: number): string => roll.replace(/(\.roll\.ya?ml)$/i, `-${n}$1`);

/** Looks the scans through with progress and a way to stop; undefined when stopped, or failed with a word. */
const measured = (options: NewRollOptions, { workspace, pool, log }: MeasureWith): Promise<StartedRoll | undefined> =>
  withProgress(vscode.l10n.t("Looking through the scans"), log, (hooks) => startRoll(options, workspace, pool, hooks));

/** The options with what a person answered; the same object where nothing has to be measured again. */
async function answersFor(
  { film, edge, frames }: StartedRoll,
  options: NewRollOptions,
): Promise<NewRollOptions | undefined> {
  let answers = options;
  if (film.from === "inferred" && film.certainty < SURE) {
    const sure = Math.round(100 * film.certainty);
    const prompt = vscode.l10n.t("The kind of film: the scans look like {0}, {1} % sure", kindName(film.film), sure);
    const kind = await question(prompt, kindChoices(film.film));
    if (kind === undefined) return undefined;
    if (kind !== film.film) answers = { ...answers, film: kind };
  }
  if (!edge) return answers;
  const evidence = vscode.l10n.t("code {0} on {1} of {2} pictures", edge.film, edge.pictures, edge.of);
  if (frames.every(({ id }) => edge.frames.includes(id))) {
    const ids = frames.map(({ id }) => id);
    const shown = ids.length > 4 ? [...ids.slice(0, 3), "…", ids[ids.length - 1]] : ids;
    const first = await question(vscode.l10n.t("The film's edge is in view ({0})", evidence), [
      { label: vscode.l10n.t("Number the frames as on the film"), description: shown.join(" "), value: 0 },
      { label: vscode.l10n.t("Count the frames from 01"), value: 1 },
    ]);
    if (first === undefined) return undefined;
    if (first === 1) answers = { ...answers, first };
  }
  return edge.published && options.stock === undefined && answers.film === undefined
    ? askPublished(edge.published.name, evidence, answers)
    : answers;
}

/** Whether the data of the film that the edge names are taken. */
async function askPublished(
  name: string,
  evidence: string,
  answers: NewRollOptions,
): Promise<NewRollOptions | undefined> {
  const takes = await question(vscode.l10n.t("The film's edge names {0} ({1})", name, evidence), [
    { label: vscode.l10n.t("Use the published data of {0}", name), value: true },
    { label: vscode.l10n.t("No stock"), description: vscode.l10n.t("worked out from the scans"), value: false },
  ]);
  if (takes === undefined) return undefined;
  return takes ? { ...answers, filmData: name, stock: stockPathOf(name, answers.roll) } : answers;
}

async function askApart(
  { first, second, reason }: NonNullable<StartedRoll["second"]>,
  { roll }: NewRollOptions,
): Promise<boolean | undefined> {
  const sign = reason === "base" ? vscode.l10n.t("the base") : vscode.l10n.t("the edge code");
  const name = (n: number): string => numbered(roll, n).replace(/^.*[\\/]/, "");
  return question(vscode.l10n.t("These may be two rolls: {0} differs from {1} on", sign, second[0]), [
    {
      label: vscode.l10n.t("Create two rolls"),
      description: `${name(1)}: ${first.join(" – ")}; ${name(2)}: ${second.join(" – ")}`,
      value: true,
    },
    { label: vscode.l10n.t("Create one roll"), value: false },
  ]);
}

/** One question after the steps: no way back, Escape cancels. */
async function question<T>(prompt: string, choices: readonly Choice<T>[]): Promise<T | undefined> {
  const step: Step = { title: vscode.l10n.t("New roll") };
  const answer = await choose(step, prompt, Promise.resolve(choices));
  return typeof answer === "object" ? answer.value : undefined;
}
