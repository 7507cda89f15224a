/** Questions one after the other, with a way back and a way out at each of them. */
import * as vscode from "vscode";

/** What a question was answered with: a value, a step back, or undefined for turning away. */
export type Answer<T> = { readonly value: T } | "back" | undefined;

/** Which question of how many. */
export interface Step {
  readonly title: string;
  /** Absent for a question by itself. */
  readonly step?: number;
  readonly totalSteps?: number;
}

export interface Choice<T> extends vscode.QuickPickItem {
  readonly value: T;
}

/** A choice from a list that may still be on its way. */
export async function choose<T>(
  about: Step,
  placeholder: string,
  choices: Promise<readonly Choice<T>[]>,
): Promise<Answer<T>> {
  const box = vscode.window.createQuickPick<Choice<T>>();
  Object.assign(box, about);
  box.placeholder = placeholder;
  box.matchOnDescription = true;
  box.ignoreFocusOut = true;
  box.busy = true;
  box.buttons = (about.step ?? 1) > 1 ? [vscode.QuickInputButtons.Back] : [];
  box.show();
  try {
    return await new Promise<Answer<T>>((resolve, reject) => {
      choices.then((items) => {
        box.items = items;
        box.busy = false;
      }, reject);
      box.onDidTriggerButton(() => resolve("back"));
      box.onDidAccept(() => {
        const [item] = box.selectedItems;
        if (item) resolve({ value: item.value });
      });
      box.onDidHide(() => resolve(undefined));
    });
  } finally {
    box.dispose();
  }
}

/** A line of text; `check` says what is wrong with it. */
export async function ask(
  about: Step,
  prompt: string,
  value: string,
  check: (value: string) => Promise<string | undefined>,
): Promise<Answer<string>> {
  const box = vscode.window.createInputBox();
  Object.assign(box, about);
  box.prompt = prompt;
  box.value = value;
  box.ignoreFocusOut = true;
  box.buttons = (about.step ?? 1) > 1 ? [vscode.QuickInputButtons.Back] : [];
  box.show();
  try {
    return await new Promise<Answer<string>>((resolve) => {
      box.onDidTriggerButton(() => resolve("back"));
      box.onDidChangeValue(async (text) => {
        const wrong = await check(text);
        if (box.value === text) box.validationMessage = wrong;
      });
      box.onDidAccept(async () => {
        const text = box.value;
        box.validationMessage = await check(text);
        if (!box.validationMessage && box.value === text) resolve({ value: text });
      });
      box.onDidHide(() => resolve(undefined));
    });
  } finally {
    box.dispose();
  }
}

export type Question = (step: Step) => Promise<Answer<unknown>>;

/**
 * Runs questions in order; "back" returns to the one before. False when the person cancels.
 * @param list the questions as the answers so far leave them
 */
export async function inSteps(title: string, list: () => readonly Question[]): Promise<boolean> {
  let at = 0;
  for (let questions = list(); at < questions.length; questions = list()) {
    const answer = await questions[at]({ title, step: at + 1, totalSteps: questions.length });
    if (answer === undefined) return false;
    at += answer === "back" ? -1 : 1;
  }
  return true;
}
