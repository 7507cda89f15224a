/** The preview beside its text: which of the two follows which, and what a gesture leaves as it was. */
import { join } from "node:path";
import { writeFileSync } from "node:fs";
import type { Frame } from "playwright-core";
import { beforeEach, describe, expect, it } from "vitest";
import { harbourSession, recipe, restoreRoll, rollFile } from "./host/material/harbour.ts";
import { useSession } from "./host/session.ts";
import { LIMIT, until } from "./host/wait.ts";

const PATIENT = { timeout: 60_000 };
const WAITING = { limit: 60_000 };

describe("the preview beside its text", () => {
  const session = useSession(() => harbourSession({ "editor.wordWrap": "off" }));
  let panel: Frame;

  const find = (): Promise<Frame> => session().window.webview(() => document.querySelector("#panel .stage") !== null);
  const frameName = () => panel.locator(".frame-name").textContent();
  const text = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith("harbour.roll.yaml"))?.getText() ?? "",
    );
  const setExposure = async (value: string): Promise<void> => {
    const field = panel.locator("[data-control=exposure] input[type=number]");
    await field.fill(value);
    await field.press("Enter");
  };

  /** A text that is replaced leaves its cursor, and the panel with it, at its end. */
  const toFirst = (): Promise<unknown> =>
    until(
      "frame 01",
      async () => {
        await panel.evaluate(() => document.querySelector<HTMLElement>(".tile")?.click());
        await session().window.page.waitForTimeout(500);
        return (await frameName()) === "01";
      },
      WAITING,
    );

  beforeEach(async () => {
    const { window, server } = session();
    await restoreRoll(server);
    await window.openFile(rollFile);
    await window.run("rollbook.openPreview");
    panel = await find();
    await until("the strip", async () => (await panel.locator(".tile").count()) === 3, WAITING);
    await toFirst();
    await until("its picture", async () => (await panel.locator(".notices .busy").count()) === 0, WAITING);
  });

  it("keeps the frame in view while others are cropped like it", async () => {
    await panel.locator("vscode-button", { hasText: "Same for the following frames" }).click();
    const area = /"01":\n.*\n {4}(area: .*)\n/.exec(recipe)![1]!;
    await expect.poll(async () => (await text()).split(area).length - 1, { timeout: LIMIT }).toBe(3);
    await session().window.page.waitForTimeout(800);
    expect(await frameName()).toBe("01");
  });

  it("undoes in a maximised panel, which stays maximised", async () => {
    const { window, server } = session();
    await panel.locator(".stage").click({ position: { x: 5, y: 5 } });
    const wide = async (): Promise<number> => (await panel.locator("#panel").boundingBox())?.width ?? 0;
    const before = await wide();
    await server.exec((vscode) => vscode.commands.executeCommand("workbench.action.toggleMaximizeEditorGroup"));
    await expect.poll(wide, { timeout: LIMIT }).toBeGreaterThan(before * 1.5);
    await setExposure("0.5");
    await expect.poll(text, { timeout: LIMIT }).toContain("positive: { exposure: 0.5 }");
    await panel.locator(".stage").focus();
    await window.page.keyboard.press("Control+z");
    await expect.poll(text, { timeout: LIMIT }).toBe(recipe);
    await expect.poll(wide, { timeout: LIMIT }).toBeGreaterThan(before * 1.5);
    await server.exec((vscode) => vscode.commands.executeCommand("workbench.action.toggleMaximizeEditorGroup"));
  });

  it("does not scroll the text sideways when a value at the end of a long line is written", async () => {
    const { server, window } = session();
    const long = "filtration: { magenta: 12, yellow: -7 }, contrast: 1.6, saturation: 1.1, toe: 0.35";
    await server.exec(async (vscode, values) => {
      const document = vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith("harbour.roll.yaml"))!;
      const edit = new vscode.WorkspaceEdit();
      const at = document.positionAt(document.getText().indexOf('  "02":'));
      edit.insert(document.uri, at, `    positive: { exposure: -0.25, ${values} }\n`);
      await vscode.workspace.applyEdit(edit);
    }, long);
    await expect.poll(text, { timeout: LIMIT }).toContain(long);
    await toFirst();
    const field = panel.locator("[data-control=saturation] input[type=number]");
    await expect.poll(() => field.inputValue(), { timeout: LIMIT }).toBe("1.10");
    await field.fill("1.4");
    await field.press("Enter");
    await expect.poll(text, { timeout: LIMIT }).toMatch(/saturation: 1\.4/);
    await window.page.waitForTimeout(500);
    const left = await window.page.evaluate(() => {
      const lines = document.querySelector<HTMLElement>(".editor-instance .view-lines, .monaco-editor .view-lines");
      const host = lines?.closest(".monaco-scrollable-element");
      return lines && host ? lines.getBoundingClientRect().left - host.getBoundingClientRect().left : undefined;
    });
    expect(left).toBe(0);
  });

  it("goes over to the roll whose text is in front, until it is locked", async () => {
    const { server, window, folder } = session();
    const other = recipe.replace(/title: .*/, "title: Another day");
    writeFileSync(join(folder, rollFile.replace("harbour.roll", "another.roll")), other);
    const show = (name: string): Promise<unknown> =>
      server.exec(async (vscode, wanted) => {
        const [file] = await vscode.workspace.findFiles(`**/${wanted}`);
        await vscode.window.showTextDocument(file, { viewColumn: vscode.ViewColumn.One });
      }, name);
    const tabs = (): Promise<string[]> =>
      server.exec((vscode) =>
        vscode.window.tabGroups.all.flatMap(({ tabs: all }) =>
          all.filter(({ input }) => input instanceof vscode.TabInputWebview).map(({ label }) => label),
        ),
      );
    await show("another.roll.yaml");
    await expect.poll(tabs, { timeout: LIMIT }).toEqual(["Preview another.roll.yaml"]);
    panel = await until("the other roll's panel", async () => await find(), { limit: LIMIT });
    await expect.poll(() => panel.locator(".tile").count(), PATIENT).toBe(3);
    await panel.locator(".stage").click({ position: { x: 5, y: 5 } });
    await window.run("rollbook.lockPreview");
    await show("harbour.roll.yaml");
    await window.page.waitForTimeout(800);
    expect(await tabs()).toEqual(["Preview another.roll.yaml"]);
  });
});
