/** The questions before a roll is created: stock or film, folder of scans, name of the recipe. */
import * as vscode from "vscode";
import type { Film } from "../../engine/types.ts";
import type { EditorServices } from "../services.ts";
import {
  browse,
  filmChoices,
  folderChoices,
  kindChoices,
  nameProblem,
  nearFolder,
  rollNameOf,
  stockChoices,
} from "./choices.ts";
import { ask, type Choice, choose, inSteps, type Question } from "./steps.ts";

/** What the person wants. */
export interface AskedRoll {
  /** Undefined for a roll without a stock. */
  readonly stock?: vscode.Uri;
  /** Name of a published film that the stock is to be written from. */
  readonly filmData?: string;
  /** Kind of film, where it is stated. */
  readonly film?: Film;
  readonly scans: vscode.Uri;
  /** The recipe to be written. */
  readonly roll: vscode.Uri;
}

export interface AskOptions {
  readonly title: string;
  /** The stock that the command was called for. */
  readonly stock?: vscode.Uri;
  /** Whether a published film and a kind of film may be chosen. */
  readonly withFilms: boolean;
}

/** Asks for everything, step by step, with a way back. Undefined when the person cancels. */
export async function askForRoll(
  { title, stock, withFilms }: AskOptions,
  root: vscode.Uri,
  services: EditorServices,
): Promise<AskedRoll | undefined> {
  const asked: { -readonly [K in keyof AskedRoll]?: AskedRoll[K] } = stock ? { stock } : {};
  let from: "stock" | "library" | "none" = "stock";
  const stockStep: Question = async (step) => {
    const prompt = vscode.l10n.t("The stock that was shot: curve, matrices and look come from it");
    const answer = await choose(step, prompt, stockChoices(services, withFilms));
    if (typeof answer !== "object") return answer;
    const { value } = answer;
    from = typeof value === "object" ? "stock" : value;
    asked.stock = typeof value === "object" ? value.stock : undefined;
    asked.filmData = undefined;
    asked.film = undefined;
    return answer;
  };
  const filmStep: Question = async (step) => {
    const prompt = vscode.l10n.t("The film by its own name, as on box and edge: type to search");
    const answer = await choose(step, prompt, Promise.resolve(filmChoices()));
    if (typeof answer === "object") asked.filmData = answer.value;
    return answer;
  };
  const kindStep: Question = async (step) => {
    const prompt = vscode.l10n.t("The kind of film");
    const recognised: Choice<Film | undefined> = {
      label: vscode.l10n.t("As the scans show"),
      description: vscode.l10n.t("asked again if they leave it open"),
      value: undefined,
    };
    const answer = await choose(step, prompt, Promise.resolve([recognised, ...kindChoices()]));
    if (typeof answer === "object") asked.film = answer.value;
    return answer;
  };
  const scansStep: Question = async (step) => {
    const answer = await choose(step, vscode.l10n.t("The folder with the roll's scans"), folderChoices(root));
    if (typeof answer !== "object") return answer;
    asked.scans = answer.value ?? (await browse(root));
    // Closing the dialog is no answer: the list is shown again.
    return asked.scans ? answer : scansStep(step);
  };
  const nameStep: Question = async (step) => {
    const folder = nearFolder(asked.scans!, root);
    const prompt = vscode.l10n.t("Name of the recipe, in {0}", vscode.workspace.asRelativePath(folder));
    const proposed = `${rollNameOf(asked.scans!, folder)}.roll.yaml`;
    const answer = await ask(step, prompt, proposed, (text) => nameProblem(folder, text));
    if (typeof answer === "object") asked.roll = vscode.Uri.joinPath(folder, answer.value.trim());
    return answer;
  };
  const isDone = await inSteps(title, () => [
    ...(stock ? [] : [stockStep]),
    ...(from === "library" ? [filmStep] : []),
    ...(from === "none" && withFilms ? [kindStep] : []),
    scansStep,
    nameStep,
  ]);
  const { scans, roll } = asked;
  return isDone && scans && roll ? { ...asked, scans, roll } : undefined;
}

/** Asks for stock, folder of scans and name of a roll that is to be created; undefined when the person cancels. */
export async function askRoll(title: string, services: EditorServices): Promise<AskedRoll | undefined> {
  const root = workspaceRoot();
  return root && askForRoll({ title, withFilms: false }, root, services);
}

/** The folder that recipes are written into, that of `near` first; a word where none is open. */
export function workspaceRoot(near?: vscode.Uri): vscode.Uri | undefined {
  const folder = (near && vscode.workspace.getWorkspaceFolder(near)) ?? vscode.workspace.workspaceFolders?.[0];
  if (!folder)
    void vscode.window.showErrorMessage(vscode.l10n.t("Open a folder first: the roll's recipe is written into it."));
  return folder?.uri;
}
