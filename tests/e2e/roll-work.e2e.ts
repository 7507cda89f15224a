/** The job without a terminal: from a folder of raw files to exported pictures, a contact sheet, a lock and a stock. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { beforeEach, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { makeRoll } from "../bench/synthetic-roll.ts";
import { type Session, useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { until } from "./host/wait.ts";

const PATIENT = { limit: 90_000 };
const ROLL = "quay.roll.yaml";

const widgetOf = ({ window }: Session) => window.page.locator(".quick-input-widget").first();

/** Answers a dialog for a file or a folder, which is in the page, with a path. */
async function answer(session: Session, path: string): Promise<void> {
  const input = widgetOf(session).locator(".quick-input-box input").first();
  await input.waitFor({ state: "visible" });
  // The dialog writes its own folder into the field once it has looked at it.
  await until("the dialog's first folder", async () => (await input.inputValue()).includes("Varnhaven"));
  await until("the dialog to rest", async () => {
    // On a busy machine it writes its own folder once more, over what was typed.
    if ((await input.inputValue()) !== path) await input.fill(path);
    await session.window.page.waitForTimeout(400);
    return (await input.inputValue()) === path;
  });
  await input.press("Enter");
  await widgetOf(session).waitFor({ state: "hidden" });
}

/** Waits for a list of choices or a field with this title. */
const titled = (session: Session, title: string): Promise<unknown> =>
  until(`the question "${title}"`, async () => (await widgetOf(session).innerText()).includes(title), PATIENT);

/** Chooses a row of a list by its label. */
async function choose(session: Session, title: string, label: string): Promise<void> {
  await titled(session, title);
  const { page } = session.window;
  await widgetOf(session).locator("input").first().fill(label);
  await widgetOf(session).locator(".monaco-list-row.focused", { hasText: label }).waitFor();
  await page.keyboard.press("Enter");
}

/** Runs a command that goes on until somebody has answered. */
const begin = ({ window }: Session, command: string): void => void window.run(command).catch(() => undefined);

describe("a folder of raw files without a recipe", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    prepare: (folder) => {
      makeRoll(folder, "quay", { width: 480, height: 320, frames: 2 });
      rmSync(join(folder, ROLL));
    },
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none" },
  }));

  it("shows the Rolls view with one button that leads to the first roll", async () => {
    const { window, picture } = session();
    const { page } = window;
    expect(await window.notification("no roll yet")).toContain("raw files");
    await window.run("notifications.clearAll");
    await page.locator(".pane-header", { hasText: "Rolls" }).waitFor();
    await window.run("rollbook.rolls.focus");
    const welcome = page.locator(".welcome-view-content", { hasText: "This folder has no roll yet" });
    await welcome.waitFor();
    expect(await welcome.innerText()).not.toContain("`");
    const button = welcome.getByRole("button", { name: "New Roll from Scans…" });
    await picture("editor-no-roll");
    // With the keyboard alone, as whoever has just come here may do it.
    await button.focus();
    await page.keyboard.press("Enter");
    await widgetOf(session()).locator(".quick-input-title").waitFor();
    await page.keyboard.press("Escape");
  });

  it("offers the same on the folder itself", async () => {
    const { page } = session().window;
    await session().window.run("workbench.files.action.focusFilesExplorer");
    const row = page.locator(".explorer-folders-view .monaco-list-row", { hasText: "scans" }).first();
    await row.click({ button: "right" });
    // The menu lies in a shadow root that locators look through.
    const entry = page.getByRole("menuitem", { name: "New Roll from Scans…" });
    await entry.waitFor();
    expect(await entry.isEnabled()).toBe(true);
    await page.keyboard.press("Escape");
  });
});

describe("work on a whole roll", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    prepare: (folder) => {
      makeRoll(folder, "quay", { width: 480, height: 320, frames: 3 });
      execFileSync("git", ["init", "-q", folder]);
    },
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none" },
  }));

  beforeEach(async () => {
    const { window } = session();
    await window.run("notifications.clearAll");
    await window.openFile(ROLL);
  });

  it("exports every frame beside the recipe, and proposes that git ignores the pictures", async () => {
    const { folder, window, picture } = session();
    mkdirSync(join(folder, "pictures"));
    begin(session(), "rollbook.exportRoll");
    await answer(session(), `${join(folder, "pictures")}/`);
    expect(await window.notification("are written")).toContain("3 frames of quay.roll.yaml are written.");
    const names = execFileSync("find", [join(folder, "pictures"), "-name", "quay-*"], { encoding: "utf8" });
    expect(names.trim().split("\n")).toHaveLength(3);
    expect(await window.notification("git would list")).toContain("They can be made again at any time.");
    await picture("editor-exported-roll");
    await window.page.getByRole("button", { name: "Add to .gitignore" }).click();
    await until("the line", async () => existsSync(join(folder, ".gitignore")));
    await until("its text", async () => readFileSync(join(folder, ".gitignore"), "utf8") === "/pictures/web/\n");
    const untracked = execFileSync("git", ["status", "--short"], { cwd: folder, encoding: "utf8" });
    expect(untracked.split("\n").toSorted()).toEqual(["", "?? .gitignore", "?? quay.roll.yaml", "?? scans/"]);
  });

  it("draws the contact sheet", async () => {
    const { folder, window } = session();
    begin(session(), "rollbook.contactSheet");
    const file = join(folder, "quay-contact.jpg");
    await answer(session(), file);
    expect(await window.notification("pixels")).toMatch(/quay-contact\.jpg is written: \d+ × \d+ pixels\./);
    const { format, width } = await sharp(file).metadata();
    expect(format).toBe("jpeg");
    expect(width).toBeGreaterThan(400);
    // The record of what was written, beside it, is nobody's work.
    expect(execFileSync("git", ["status", "--short"], { cwd: folder, encoding: "utf8" })).not.toContain(".rollbook");
  });

  it("locks the scans in one step of undo", async () => {
    const { window, text } = session();
    const before = readFileSync(join(session().folder, ROLL), "utf8");
    await window.run("rollbook.lockScans");
    const locked = await text.waitForText("the lock", (now) => now.includes("fingerprints:"));
    expect([...locked.matchAll(/sha256: [0-9a-f]{64}/g)]).toHaveLength(5);
    expect(await window.notification("are locked")).toContain("5 scans of quay.roll.yaml are locked.");
    await window.run("undo");
    await text.waitForText("the text before", (now) => now === before);
    await window.run("workbench.action.files.revert");
  });

  it("copies shooting notes from a table after it has shown them, in one step of undo", async () => {
    const { folder, window, text, picture } = session();
    const before = readFileSync(join(folder, ROLL), "utf8");
    const table = join(folder, "notes.csv");
    writeFileSync(table, "frame;filter;shutter;aperture\n1;yellow;1/250;5,6\n2;;B;8\n");
    begin(session(), "rollbook.shootingNotes");
    await answer(session(), table);
    const dialog = window.page.locator(".monaco-dialog-box");
    await dialog.waitFor();
    const shown = await dialog.innerText();
    expect(shown).toContain("01  exposed.shutter: 1/250");
    expect(shown).toContain('Row 3, column shutter: "B" cannot be read; it was left out.');
    await picture("editor-shooting-notes");
    // The first button has the focus.
    await window.page.keyboard.press("Enter");
    await text.waitForText("the notes", (now) =>
      now.includes("exposed: { aperture: 5.6, shutter: 1/250, filter: yellow }"),
    );
    await window.run("undo");
    await text.waitForText("the text before", (now) => now === before);
    await window.run("workbench.action.files.revert");
    rmSync(table);
  });

  it("calibrates by a grey card: kind, frame and place are asked for, and one undo reverts what is written", async () => {
    const { folder, window, text, picture } = session();
    const before = readFileSync(join(folder, ROLL), "utf8");
    begin(session(), "rollbook.calibrate");
    await choose(session(), "Calibrate quay", "Grey card");
    await choose(session(), "Which frame shows the grey card?", "02");
    await titled(session(), "Grey card on frame 02");
    await picture("editor-calibrate-place");
    const place = widgetOf(session()).locator("input").first();
    const proposed = await place.inputValue();
    // A place beyond the scan's edge is refused where it is typed.
    await place.fill("0.9, 0.4, 0.2, 0.1");
    await until("the refusal", async () =>
      (await widgetOf(session()).innerText()).includes("Four numbers from 0 to 1"),
    );
    await place.fill(proposed);
    await place.press("Enter");
    const message = await window.notification("are written");
    const figures = /Filtration C (\S+), M (\S+), Y (\S+) for the roll, exposure (\S+) EV for frame 02/.exec(message);
    if (!figures) throw new Error(`The message holds no figures: ${message}`);
    const written = parse(await text.waitForText("the values", (now) => now.includes("filtration:")));
    const { cyan = 0, magenta = 0, yellow = 0 } = written.positive.filtration;
    expect([cyan, magenta, yellow].map(String)).toEqual(figures.slice(1, 4));
    expect(String(written.frames["02"].positive.exposure)).toBe(figures[4]);
    await picture("editor-calibrated");
    await window.run("undo");
    await text.waitForText("the text before", (now) => now === before);
    await window.run("workbench.action.files.revert");
  });

  it("calibrates by a curve's table, and asks whether the roll is to have it", async () => {
    const { folder, window, text, picture } = session();
    const before = readFileSync(join(folder, ROLL), "utf8");
    const table = join(folder, "curve.csv");
    // A straight line of gamma 0.6 between toe and shoulder.
    const rows = Array.from({ length: 31 }, (_, k) => {
      const x = -3 + k / 10;
      const y = 0.2 + Math.min(1.2, Math.max(0, 0.6 * (x + 2.5)));
      return `${x.toFixed(1)},${y.toFixed(3)},${(y + 0.3).toFixed(3)},${(y + 0.5).toFixed(3)}`;
    });
    writeFileSync(table, `logH,red,green,blue\n${rows.join("\n")}\n`);
    begin(session(), "rollbook.calibrate");
    await choose(session(), "Calibrate quay", "Characteristic curve");
    await answer(session(), table);
    const dialog = window.page.locator(".monaco-dialog-box");
    await dialog.waitFor();
    expect(await dialog.innerText()).toMatch(/red: gamma 0\.\d\d, density 0\.20 to 1\.40/);
    await picture("editor-calibrate-curve");
    await dialog.getByRole("button", { name: "Write to the roll" }).click();
    const written = parse(await text.waitForText("the curve", (now) => now.includes("curve:")));
    expect(Object.keys(written.negative)).toContain("curve");
    await window.run("undo");
    await text.waitForText("the text before", (now) => now === before);
    await window.run("workbench.action.files.revert");
    rmSync(table);
  });

  it("says where there is nothing to join", async () => {
    const { window } = session();
    await window.run("rollbook.measureJoins");
    expect(await window.notification("nothing to join")).toContain("quay.roll.yaml");
  });

  it("writes a stock and opens it", async () => {
    const { folder, window } = session();
    begin(session(), "rollbook.writeStock");
    const title = widgetOf(session()).locator("input").first();
    await title.waitFor({ state: "visible" });
    await title.fill("Quay film");
    await title.press("Enter");
    await answer(session(), join(folder, "quay.stock.yaml"));
    await window.waitForEditor("quay.stock.yaml");
    expect(readFileSync(join(folder, "quay.stock.yaml"), "utf8")).toContain("title: Quay film");
  });

  it("has the command in its terminals", async () => {
    const { server } = session();
    const bin = await server.exec(async (vscode) => {
      const terminal = vscode.window.createTerminal({ name: "rollbook" });
      terminal.sendText('rollbook --version > version.txt 2>&1; echo "ended" >> version.txt');
      return terminal.name;
    });
    expect(bin).toBe("rollbook");
    const file = join(session().folder, "version.txt");
    await until(
      "the command's answer",
      async () => existsSync(file) && readFileSync(file, "utf8").includes("ended"),
      PATIENT,
    );
    expect(readFileSync(file, "utf8")).toMatch(/^(rollbook )?\d+\.\d+\.\d+/);
  });
});
