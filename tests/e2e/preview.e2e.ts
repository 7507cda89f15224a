import type { Frame } from "playwright-core";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { harbourSession, recipe, restoreRoll, rollFile } from "./host/material/harbour.ts";
import { useSession } from "./host/session.ts";
import { LIMIT, until } from "./host/wait.ts";

/** A frame decodes, and its proxy travels to the panel: time enough for that on a machine that does other things too. */
const PATIENT = { timeout: 60_000 };

describe("the preview", () => {
  const session = useSession(() =>
    harbourSession({ "workbench.colorTheme": "Default Dark Modern", "editor.minimap.enabled": false }),
  );
  let panel: Frame;

  const find = (): Promise<Frame> => session().window.webview(() => document.querySelector("#panel .stage") !== null);
  /** The picture is there when its frame is no longer being prepared. */
  const ready = async (frame: Frame, name: string): Promise<void> => {
    await expect.poll(() => frame.locator(".frame-name").textContent(), PATIENT).toBe(name);
    await expect.poll(() => frame.locator(".notices .busy").count(), PATIENT).toBe(0);
    await until("the picture", async () => (await spread()) > 2);
  };
  const text = (): Promise<string> =>
    session().server.exec(
      (vscode) => vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"))?.getText() ?? "",
    );

  /** Mean colour of a part of the stage (fractions of it), as the screen shows it. */
  async function shown(x: number, y: number, size = 12): Promise<[number, number, number]> {
    const box = await panel.locator(".stage").boundingBox();
    if (!box) throw new Error("The panel has no stage.");
    const clip = {
      x: box.x + x * box.width - size / 2,
      y: box.y + y * box.height - size / 2,
      width: size,
      height: size,
    };
    const { default: sharp } = await import("sharp");
    const { channels } = await sharp(await session().window.page.screenshot({ clip }))
      .removeAlpha()
      .stats();
    return [channels[0].mean, channels[1].mean, channels[2].mean];
  }
  /** How much the tones of the stage differ: nothing while there is no picture. */
  async function spread(): Promise<number> {
    const box = await panel.locator(".stage").boundingBox();
    if (!box) return 0;
    const { default: sharp } = await import("sharp");
    const clip = { x: box.x, y: box.y + box.height * 0.35, width: box.width, height: box.height * 0.3 };
    const { channels } = await sharp(await session().window.page.screenshot({ clip }))
      .removeAlpha()
      .stats();
    return channels[1].stdev;
  }
  async function at(x: number, y: number): Promise<{ x: number; y: number }> {
    const box = await panel.locator(".stage").boundingBox();
    if (!box) throw new Error("The panel has no stage.");
    return { x: box.x + x * box.width, y: box.y + y * box.height };
  }
  async function drag(from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
    const { mouse } = session().window.page;
    await mouse.move(from.x, from.y);
    await mouse.down();
    await mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
    await mouse.move(to.x, to.y, { steps: 4 });
    await mouse.up();
  }

  beforeEach(async () => {
    const { window, server } = session();
    await restoreRoll(server);
    await window.openFile(rollFile);
    await window.run("rollbook.openPreview");
    panel = await find();
    await ready(panel, "01");
  });
  afterEach(() => {
    const { foreign } = session().window.watched;
    if (foreign.length) throw new Error(`The page asked for ${foreign.join(", ")}.`);
  });

  it("opens beside the text with its first picture", async () => {
    const { picture, window } = session();
    const start = Date.now();
    await window.run("workbench.action.closeAllEditors");
    await window.openFile(rollFile);
    await window.run("rollbook.openPreview");
    panel = await find();
    await ready(panel, "01");
    console.log(`first picture of an opened roll, cached proxy: ${Date.now() - start} ms`);
    await expect.poll(() => panel.locator(".tile").count()).toBe(3);
    await expect.poll(() => panel.locator(".tile.drawn").count(), PATIENT).toBe(3);
    expect(await panel.locator(".notices p").allTextContents()).toEqual([]);
    await picture("preview-dark");
  });

  it("drags exposure: pixels and YAML change, and one undo restores both", async () => {
    const { window } = session();
    const before = await shown(0.5, 0.55);
    const range = panel.locator("[data-control=exposure] input[type=range]");
    const box = await range.boundingBox();
    if (!box) throw new Error("The panel has no exposure slider.");
    const y = box.y + box.height / 2;
    await drag({ x: box.x + box.width / 2, y }, { x: box.x + box.width * 0.38, y });
    await expect.poll(text, { timeout: LIMIT }).toMatch(/positive: \{ exposure: -[\d.]+ \}/);
    const after = await shown(0.5, 0.55);
    expect(after[1]).toBeLessThan(before[1] - 15);
    // The rest of the text is as it was.
    expect((await text()).replace(/\n {4}positive: \{ exposure: -[\d.]+ \}/, "")).toBe(recipe);
    await panel.locator(".stage").focus();
    await window.page.keyboard.press("Control+z");
    await expect.poll(text, { timeout: LIMIT }).toBe(recipe);
    await expect
      .poll(async () => Math.abs((await shown(0.5, 0.55))[1] - before[1]), { timeout: LIMIT })
      .toBeLessThan(2);
  });

  it("crops over the whole scan, and picks a neutral by a click", async () => {
    const { window, picture } = session();
    await panel.locator("vscode-button[title^='Crop over the whole scan']").click();
    await panel.locator(".crop-handle").first().waitFor();
    const handle = await panel.locator("[data-handle='-1 -1']").boundingBox();
    if (!handle) throw new Error("There is no handle.");
    await picture("preview-crop");
    await drag({ x: handle.x + 5, y: handle.y + 5 }, { x: handle.x + 65, y: handle.y + 45 });
    const cropped =
      /"01":\n {4}scan: H0001\.dng\n {4}area: \{ left: ([\d.]+), top: ([\d.]+), width: ([\d.]+), height: ([\d.]+), tilt: -0\.4 \}/;
    await expect.poll(async () => Number(cropped.exec(await text())?.[1]), { timeout: LIMIT }).toBeGreaterThan(0.08);
    const [left, top, width, height] = cropped
      .exec(await text())!
      .slice(1)
      .map(Number);
    // The opposite corner stays.
    expect(left + width).toBeCloseTo(0.9584, 2);
    expect(top + height).toBeCloseTo(0.9594, 2);
    await window.page.keyboard.press("Escape");
    const before = await shown(0.3, 0.4);
    await panel.locator("vscode-button[title^='Click on something that was grey']").click();
    const place = await at(0.3, 0.4);
    await window.page.mouse.click(place.x, place.y);
    await expect.poll(text, { timeout: LIMIT }).toMatch(/filtration: \{ magenta: -?[\d.]+, yellow: -?[\d.]+ \}/);
    const spreadOf = (colour: readonly number[]): number => Math.max(...colour) - Math.min(...colour);
    // The text may be there before the picture is painted.
    await expect
      .poll(async () => spreadOf(await shown(0.3, 0.4, 4)), { timeout: LIMIT })
      .toBeLessThan(Math.max(9, spreadOf(before) * 0.6));
  });

  it("reads the base by dragging over the rebate, for the roll", async () => {
    await panel.locator("vscode-button[title^='Draw a rectangle over the rebate']").click();
    await expect.poll(() => panel.locator(".stage").getAttribute("data-tool")).toBe("base");
    // The margin between picture and holder: a strip along the picture's lower edge.
    const area = await panel.evaluate(() => {
      const box = document.querySelector(".stage")!.getBoundingClientRect();
      return { width: box.width, height: box.height };
    });
    // The whole scan is 3 : 2 and fitted with a margin of 12 pixels.
    const scanHeight = Math.min(area.width - 24, (area.height - 24) * 1.5) / 1.5;
    const bottom = (area.height + scanHeight) / 2;
    const y = (fraction: number): number => (bottom - scanHeight * fraction) / area.height;
    await drag(await at(0.4, y(0.034)), await at(0.6, y(0.018)));
    await expect
      .poll(async () => (await text()) !== recipe || (await panel.locator(".notices .error").count()) > 0, {
        timeout: 60_000,
      })
      .toBe(true);
    expect(await panel.locator(".notices .error").allTextContents()).toEqual([]);
    const written = await text();
    const [red, green, blue] = /density: \[([\d.]+), ([\d.]+), ([\d.]+)\]/.exec(written)!.slice(1).map(Number);
    expect(Math.abs(red - 0.267)).toBeLessThan(0.03);
    expect(Math.abs(green - 0.586)).toBeLessThan(0.03);
    expect(Math.abs(blue - 0.735)).toBeLessThan(0.03);
    expect(written).toMatch(/read: \{ scan: H0001\.dng, area: \[/);
  });

  it("goes where the text's cursor goes, and the other way round", async () => {
    const { server, window } = session();
    await server.exec((vscode) => {
      const editor = vscode.window.visibleTextEditors.find((e) => e.document.uri.path.endsWith(".roll.yaml"));
      if (!editor) throw new Error("The text is not in view.");
      const place = editor.document.positionAt(editor.document.getText().indexOf("H0003"));
      editor.selection = new vscode.Selection(place, place);
    });
    await ready(panel, "03");
    await panel.locator(".stage").focus();
    await window.page.keyboard.press("PageUp");
    await ready(panel, "02");
    const line = () =>
      server.exec((vscode) => {
        const editor = vscode.window.visibleTextEditors.find((e) => e.document.uri.path.endsWith(".roll.yaml"));
        return editor?.document.lineAt(editor.selection.active).text;
      });
    await expect.poll(line, { timeout: LIMIT }).toBe('  "02":');
  });

  it("is as it was after it was hidden and shown, and after the window was loaded again", async () => {
    const { window, server } = session();
    await panel.locator(".stage").focus();
    await window.page.keyboard.press("PageDown");
    await ready(panel, "02");
    await panel.locator("vscode-button", { hasText: "Density" }).click();
    await window.page.keyboard.press("1");
    const seen = () =>
      panel.evaluate(() => [
        document.querySelector(".frame-name")?.textContent,
        [...document.querySelectorAll("vscode-button[data-pressed=true]")]
          .map((b) => b.textContent?.trim())
          .filter(Boolean),
      ]);
    await expect.poll(seen).toEqual(["02", ["Density", "100 %"]]);
    // Another editor in the panel's group hides it; its page is gone then.
    await server.exec(async (vscode) => {
      const stock = (await vscode.workspace.findFiles("**/*.stock.yaml"))[0];
      const column = vscode.window.tabGroups.all.find((g) =>
        g.tabs.some((t) => t.input instanceof vscode.TabInputWebview),
      )?.viewColumn;
      await vscode.window.showTextDocument(stock, { viewColumn: column });
    });
    await until(
      "the panel to be hidden",
      async () =>
        !(await panel
          .locator(".stage")
          .isVisible()
          .catch(() => false)),
    );
    await server.exec((vscode) => vscode.commands.executeCommand("workbench.action.closeActiveEditor"));
    panel = await find();
    await ready(panel, "02");
    await expect.poll(seen).toEqual(["02", ["Density", "100 %"]]);
    await window.reload();
    await window.showTab("Preview harbour");
    panel = await find();
    await ready(panel, "02");
    await expect.poll(seen).toEqual(["02", ["Density", "100 %"]]);
  });

  it("keeps the last good picture beside a problem, and follows a change of theme", async () => {
    const { server, picture, window } = session();
    await server.exec(async (vscode) => {
      const document = vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"));
      if (!document) throw new Error("no roll");
      const at = document.getText().indexOf("tilt: -0.4");
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, new vscode.Range(document.positionAt(at), document.positionAt(at + 10)), "tilt: wide");
      await vscode.workspace.applyEdit(edit);
    });
    await expect
      .poll(() => panel.locator(".notices .error").textContent(), { timeout: LIMIT })
      .toMatch(/harbour\.roll\.yaml, line \d+: .*text without errors/);
    expect(await spread()).toBeGreaterThan(20);
    await server.exec((vscode) => vscode.commands.executeCommand("undo"));
    await server.exec((vscode) =>
      vscode.workspace
        .getConfiguration("workbench")
        .update("colorTheme", "Default Light Modern", vscode.ConfigurationTarget.Global),
    );
    await expect
      .poll(() => panel.evaluate(() => document.body.classList.contains("vscode-light")), { timeout: LIMIT })
      .toBe(true);
    await expect.poll(() => panel.locator(".notices .error").count(), { timeout: LIMIT }).toBe(0);
    await panel.locator("vscode-button[title^='Wipe']").click();
    await window.page.waitForTimeout(300);
    await picture("preview-light");
    expect((await shown(0.01, 0.01, 2)).map(Math.round)).toEqual([119, 119, 119]);
    await server.exec((vscode) =>
      vscode.workspace
        .getConfiguration("workbench")
        .update("colorTheme", "Default Dark Modern", vscode.ConfigurationTarget.Global),
    );
  });

  it("opens the strip of a roll of 200 frames without decoding all of them", async () => {
    const { server, window } = session();
    const start = Date.now();
    await server.exec(async (vscode) => {
      const document = vscode.workspace.textDocuments.find((d) => d.uri.path.endsWith(".roll.yaml"));
      if (!document) throw new Error("no roll");
      const more = Array.from(
        { length: 197 },
        (_, i) => `  "${String(i + 4).padStart(3, "0")}":\n    scan: H000${1 + (i % 3)}.dng\n`,
      ).join("");
      const edit = new vscode.WorkspaceEdit();
      edit.insert(document.uri, document.positionAt(document.getText().length), more);
      await vscode.workspace.applyEdit(edit);
    });
    await expect.poll(() => panel.locator(".tile").count(), { timeout: LIMIT }).toBe(200);
    console.log(`strip of 200 frames: ${Date.now() - start} ms`);
    await window.page.waitForTimeout(1500);
    const drawn = await panel.locator(".tile.drawn").count();
    expect(drawn).toBeLessThan(30);
  });
});
