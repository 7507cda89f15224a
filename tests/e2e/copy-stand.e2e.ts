/** A session at the copy stand: a script drops twelve scans, of which five have one fault each. */
import { appendFileSync, existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Frame } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { scanBytes, type StandScan, TWELVE } from "../unit/work/copy-stand/stand-scans.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { until } from "./host/wait.ts";

const root = resolve(import.meta.dirname, "../..");
const cache = join(root, ".cache/stand-scans");
const PATIENT = { limit: 150_000 };
/** First words of verdicts; while a scan is measured there is another. */
const WORDS = ["good", "look", "again"];

/** Draws a scan once; a copy stand's test needs more of them than it is quick to draw. */
function bytesOf(name: string, scan: StandScan, minute: number): Uint8Array {
  const path = join(cache, name);
  if (!existsSync(path)) {
    mkdirSync(cache, { recursive: true });
    writeFileSync(`${path}.${process.pid}`, scanBytes(scan, minute));
    renameSync(`${path}.${process.pid}`, path);
  }
  return readFileSync(path);
}

describe("the copy stand", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: {
      "stocks/northlight-400.stock.yaml": readFileSync(
        join(root, "recipes-examples/stocks/northlight-400.stock.yaml"),
        "utf8",
      ),
      "quay/quay.roll.yaml":
        'version: 1\ntitle: Quay\nstock: ../stocks/northlight-400.stock.yaml\nformat: "135"\nscans: scans\n',
      "quay/scans/notes.txt": "Not a scan.\n",
    },
    size: { width: 1280, height: 720 },
    settings: { "workbench.startupEditor": "none", "editor.minimap.enabled": false },
  }));

  let panel: Frame;
  const isStand = (): boolean => document.querySelector("#stand .verdict") !== null;
  const scans = (): string => join(session().folder, "quay/scans");
  const recipe = (): string => readFileSync(join(session().folder, "quay/quay.roll.yaml"), "utf8");
  const cells = () => panel.locator(".strip .cell");
  const band = () => panel.locator(".verdict");
  const close = (): Promise<unknown> =>
    session().server.exec((vscode) => vscode.commands.executeCommand("workbench.action.closeAllEditors"));
  const open = async (): Promise<void> => {
    const { server, folder, window } = session();
    const places = { folder: join(folder, "quay/scans"), roll: join(folder, "quay/quay.roll.yaml") };
    await server.exec((vscode, at) => vscode.commands.executeCommand("rollbook.copyStand", at), places);
    panel = await window.webview(isStand);
  };
  const judged = (count: number) => until(`${count} verdicts`, async () => (await cells().count()) === count, PATIENT);
  /** Writes a scan in two parts, as a slow card reader does. */
  const drop = async (name: string, bytes: Uint8Array): Promise<void> => {
    const half = Math.floor(bytes.length / 2);
    writeFileSync(join(scans(), name), bytes.subarray(0, half));
    await new Promise((done) => setTimeout(done, 400));
    appendFileSync(join(scans(), name), bytes.subarray(half));
  };

  beforeAll(open);

  it("waits for scans, and shows what it waits for", async () => {
    await expect.poll(() => band().innerText()).toContain("Waiting for scans in quay/scans");
  });

  it("recognises the bare light and the leader when film has come", async () => {
    await drop("A0001.dng", bytesOf("A0001.dng", { subject: "blank" }, 1));
    await judged(1);
    await drop("A0002.dng", bytesOf("A0002.dng", { subject: "leader" }, 2));
    await judged(2);
    await until("the blank's name", async () => (await cells().first().innerText()).includes("blank"), PATIENT);
    await until("the blank in the recipe", () => recipe().includes("blank: A0001.dng"), PATIENT);
    expect(await cells().nth(1).innerText()).toContain("leader");
  });

  it("judges twelve scans: seven good ones, and five with a fault each", async () => {
    await session().server.exec((vscode) => vscode.commands.executeCommand("workbench.action.closeSidebar"));
    for (const [i, scan] of TWELVE.entries()) {
      const name = `A${String(i + 3).padStart(4, "0")}.dng`;
      await drop(name, bytesOf(name, scan, i + 3));
      await judged(i + 3);
      await until(
        `the verdict on ${name}`,
        async () =>
          (await band().innerText()).includes(name) && WORDS.includes(await band().locator(".word").innerText()),
        PATIENT,
      );
      if (scan.code === "softer") await session().picture("copy-stand-again");
    }
    const words = await cells().evaluateAll((all) =>
      all.slice(2).map((one) => /: (good|look|again)/.exec(one.getAttribute("aria-label") ?? "")?.[1]),
    );
    expect(words).toEqual(TWELVE.map(({ verdict }) => verdict));
  }, 600_000);

  it("lets the recipe grow by a frame a scan, saved as it goes", () => {
    const text = recipe();
    for (let k = 1; k <= 12; k++) {
      const name = `A${String(k + 2).padStart(4, "0")}.dng`;
      expect(text).toContain(`  "${String(k).padStart(2, "0")}":\n    scan: ${name}\n`);
    }
    expect(text).toContain("negative:\n  base:");
  });

  it("replaces a scan that is taken again, keeps its file, and says so in the recipe", async () => {
    const again: StandScan = { subject: "faces", frame: "16" };
    await drop("A0015.dng", bytesOf("A0015.dng", again, 15));
    await judged(15);
    await until(
      "the retake in the recipe",
      () => recipe().includes("scan: A0015.dng\n    unused: [A0007.dng]"),
      PATIENT,
    );
    expect(existsSync(join(scans(), "A0007.dng"))).toBe(true);
    await until("its verdict", async () => (await band().locator(".word").innerText()) === "good", PATIENT);
    await session().picture("copy-stand-good");
  });

  it("can be gone through by the keyboard alone, and compares the focus with the best", async () => {
    const { page } = session().window;
    await cells().last().focus();
    await page.keyboard.press("Home");
    await until("the first scan", async () => (await cells().first().getAttribute("aria-selected")) === "true");
    for (let k = 0; k < 6; k++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => band().innerText()).toMatch(/again[\s\S]*A0007\.dng[\s\S]*Out of focus/);
    const compare = panel.getByRole("button", { name: "Compare with best" });
    await compare.focus();
    await page.keyboard.press("Enter");
    await until("two rows of grain", async () => (await panel.locator(".crops img").count()) === 2);
    await session().picture("copy-stand-focus");
    await compare.press("Enter");
  });

  it("fits beside another window, 800 pixels wide, in light and in high contrast", async () => {
    const { page } = session().window;
    const theme = async (name: string, kind: string): Promise<void> => {
      await session().server.exec(
        (vscode, to) => vscode.workspace.getConfiguration().update("workbench.colorTheme", to, true),
        name,
      );
      await until(`the page in ${name}`, () => panel.evaluate((is) => document.body.classList.contains(is), kind));
    };
    await page.setViewportSize({ width: 800, height: 720 });
    await session().server.exec((vscode) =>
      vscode.commands.executeCommand("workbench.action.maximizeEditorHideSidebar"),
    );
    await until("a narrow panel", async () => (await panel.evaluate(() => innerWidth)) <= 800);
    const wide = await panel.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    expect(
      await band()
        .locator(".word")
        .evaluate((word) => word.getBoundingClientRect().height),
    ).toBeGreaterThan(50);
    await session().picture("copy-stand-narrow");
    await theme("Default Light Modern", "vscode-light");
    await session().picture("copy-stand-light");
    await theme("Default High Contrast", "vscode-high-contrast");
    await session().picture("copy-stand-contrast");
    await theme("Default Dark Modern", "vscode-dark");
    await page.setViewportSize({ width: 1280, height: 720 });
  });

  it("goes on where it was after it was closed, and measures nothing again", async () => {
    const before = recipe();
    await close();
    await drop("A0016.dng", bytesOf("A0016.dng", { subject: "lace", frame: "24" }, 16));
    await open();
    await judged(16);
    await until("the new frame", () => recipe().includes('"13":\n    scan: A0016.dng'), PATIENT);
    expect(recipe().startsWith(before.slice(0, before.indexOf("frames:")).slice(0, 60))).toBe(true);
    for (const name of ["A0003.dng", "A0015.dng"]) expect(recipe().split(`scan: ${name}`).length).toBe(2);
  });

  it("goes on where it was after the window was loaded again while a scan was measured", async () => {
    const { window } = session();
    await drop("A0017.dng", bytesOf("A0017.dng", { subject: "bracken", frame: "25" }, 17));
    await window.reload();
    panel = await window.webview(isStand);
    await judged(17);
    await until("the new frame", () => recipe().includes('"14":\n    scan: A0017.dng'), PATIENT);
    for (const name of ["A0003.dng", "A0015.dng", "A0016.dng", "A0017.dng"])
      expect(recipe().split(`scan: ${name}`).length).toBe(2);
    expect(await window.page.locator(".notification-list-item-message").count()).toBe(0);
  });
});
