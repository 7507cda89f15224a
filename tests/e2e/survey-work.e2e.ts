/** The survey as work: stopping it, asking twice, asking again, its report as a file, and what is dismissed for good. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { describe, expect, it } from "vitest";
import { files, putDustyScan, putScans, recipe, rollFile } from "./host/material/harbour.ts";
import { takePicture } from "./host/pictures.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";
import { until } from "./host/wait.ts";

/** Scans are decoded and measured: time enough for that on a machine that does other things too. */
const PATIENT = { limit: 120_000 };

const longFile = "harbour/long.roll.yaml";
/** So many frames that a survey of them is still under way when somebody stops it. */
const long = `${recipe.slice(0, recipe.indexOf("frames:"))}frames:
${Array.from({ length: 60 }, (_, i) => `  "${String(i + 1).padStart(2, "0")}":\n    scan: H000${(i % 3) + 1}.dng\n`).join("")}`;

describe("the survey's work", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Varnhaven",
    files: { ...files, [longFile]: long },
    prepare(folder) {
      putScans(folder, true);
      putDustyScan(folder);
    },
    size: { width: 1360, height: 840 },
    settings: { "workbench.startupEditor": "none", "editor.minimap.enabled": false },
  }));

  const notes = () => session().window.page.locator(".notification-list-item");
  const note = (text: string) => notes().filter({ hasText: text });
  const isReport = (): boolean => document.querySelector("main article") !== null;
  /** Starts a survey and does not wait for its end. */
  const start = (roll: string): Promise<unknown> =>
    session().server.exec(
      (vscode, path) => void vscode.commands.executeCommand("rollbook.survey", vscode.Uri.file(path)),
      join(session().folder, roll),
    );
  /** Surveys the small roll by what `press` does, and gives the message at the end. */
  const surveyed = async (press: () => Promise<unknown>): Promise<string> => {
    await session().window.run("notifications.clearAll");
    await press();
    await note("scans surveyed").first().waitFor({ timeout: PATIENT.limit });
    return await note("scans surveyed").first().locator(".notification-list-item-message").innerText();
  };
  const problems = (roll: string): Promise<number> =>
    session().server.exec(
      (vscode, path) =>
        vscode.languages.getDiagnostics(vscode.Uri.file(path)).filter(({ source }) => source === "Rollbook survey")
          .length,
      join(session().folder, roll),
    );

  it("is not begun twice for one roll, and stops when it is told to", async () => {
    const { window } = session();
    await window.openFile(longFile);
    await start(longFile);
    await note("Surveying the scans of harbour/long.roll.yaml").waitFor({ timeout: PATIENT.limit });
    await start(longFile);
    expect(await window.notification("surveyed already")).toBe(
      "The scans of harbour/long.roll.yaml are being surveyed already.",
    );
    await until("its progress", async () => /frame \d\d, \d+ of 60/.test(await note("Surveying").innerText()), PATIENT);
    await note("Surveying").getByRole("button", { name: "Cancel" }).click();
    await until("the end of its progress", async () => (await note("Surveying").count()) === 0, PATIENT);
    // It is nothing that went wrong, and nothing half measured is shown or kept.
    expect(
      await notes()
        .filter({ hasText: /scans surveyed|cancel/i })
        .count(),
    ).toBe(0);
    expect(await problems(longFile)).toBe(0);
    await window.run("rollbook.showSurvey");
    const report = await window.webview(() => document.querySelector("#notices p") !== null);
    expect(await report.locator("#notices").innerText()).toBe(
      "No survey of this roll is stored. Survey its scans to see how good they are.",
    );
    expect(await report.getByRole("button", { name: "Save report…" }).isVisible()).toBe(false);
    await window.run("workbench.action.closeActiveEditor");
    // The roll is free again: another survey of it begins.
    await window.run("notifications.clearAll");
    await start(longFile);
    await note("Surveying the scans of harbour/long.roll.yaml").waitFor({ timeout: PATIENT.limit });
    await note("Surveying").getByRole("button", { name: "Cancel" }).click();
    await until("the end of its progress", async () => (await note("Surveying").count()) === 0, PATIENT);
  });

  let report: Frame;

  it("says the same when it is asked again and nothing has changed", async () => {
    const { window } = session();
    await window.run("workbench.action.closeAllEditors");
    await window.openFile(rollFile);
    const first = await surveyed(() => start(rollFile));
    expect(first).toMatch(/^3 scans surveyed, \d+ findings\.$/);
    report = await window.webview(isReport);
    const shown = () => report.locator("main").innerText();
    const [before, found] = [await shown(), await problems(rollFile)];
    expect(found).toBeGreaterThan(0);
    expect(await surveyed(() => report.getByRole("button", { name: "Survey again" }).click())).toBe(first);
    expect(await shown()).toBe(before);
    expect(await problems(rollFile)).toBe(found);
    expect(await report.locator("#notices").innerText()).toBe("");
  });

  it("keeps the last survey when another one is stopped", async () => {
    const found = await problems(rollFile);
    const shown = await report.locator("main").innerText();
    await session().window.run("notifications.clearAll");
    await report.getByRole("button", { name: "Survey again" }).click();
    await note("Surveying").getByRole("button", { name: "Cancel" }).click();
    await until("the end of its progress", async () => (await note("Surveying").count()) === 0, PATIENT);
    expect(await note("scans surveyed").count()).toBe(0);
    expect(await problems(rollFile)).toBe(found);
    expect(await report.locator("main").innerText()).toBe(shown);
  });

  it("writes the report as one file that needs nothing else", async () => {
    const { folder, window } = session();
    const { page } = window;
    const widget = page.locator(".quick-input-widget").first();
    const input = widget.locator(".quick-input-box input").first();
    const saveAs = async (path: string): Promise<void> => {
      await report.getByRole("button", { name: "Save report…" }).click();
      // It offers a name beside the recipe.
      await until("a name", async () => (await input.inputValue()).endsWith("/harbour/harbour-survey.html"));
      await input.fill(path);
      await until("the dialog to rest", async () => (await input.inputValue()) === path);
      await input.press("Enter");
      await widget.waitFor({ state: "hidden" });
    };
    const path = join(folder, "harbour/report.html");
    await saveAs(path);
    await until("the file", () => existsSync(path));
    const html = readFileSync(path, "utf8");
    expect(html).toContain("<title>Survey: Varnhaven, first light</title>");
    expect(html).not.toMatch(/<script|<button|https?:(?!\/\/www\.w3\.org)/);
    const sheet = await page.context().newPage();
    const wanted: string[] = [];
    sheet.on("request", (request) => wanted.push(request.url()));
    await sheet.setContent(html);
    const headings = await report.locator("main h3").allInnerTexts();
    expect(await sheet.locator("h3").allInnerTexts()).toEqual(headings);
    expect(wanted.filter((url) => !url.startsWith("data:"))).toEqual([]);
    await sheet.close();
    // A dialog that is left writes nothing.
    await report.getByRole("button", { name: "Save report…" }).click();
    await input.waitFor({ state: "visible" });
    await page.keyboard.press("Escape");
    await widget.waitFor({ state: "hidden" });
    expect(existsSync(join(folder, "harbour/harbour-survey.html"))).toBe(false);
  });

  it("proposes a spot no more that was dismissed: not in a panel reopened, not after another survey", async () => {
    const { window, folder, assistance } = session();
    const isPreview = (): boolean => document.querySelector("[data-section=proposals] li") !== null;
    const opened = async (): Promise<Frame> => {
      await window.server.exec(
        (vscode, path) => vscode.commands.executeCommand("rollbook.openPreview", vscode.Uri.file(path), "02"),
        join(folder, rollFile),
      );
      return await until("the preview", async () => await window.webview(isPreview), PATIENT);
    };
    const rowsOf = (preview: Frame) => preview.locator("[data-section=proposals] > ul > li");
    const overOf = (preview: Frame) => preview.locator("[data-section=proposals] .over");
    // A row shows the speck; where it lies is its title.
    const titlesOf = (rows: ReturnType<typeof rowsOf>): Promise<string[]> =>
      rows.evaluateAll((all) => all.map((row) => row.getAttribute("title") ?? ""));
    const placeOf = (label: string | null): string => /Film: .*/.exec(label ?? "")![0];

    await window.run("workbench.action.closeAllEditors");
    await window.openFile(rollFile);
    let preview = await opened();
    const count = await rowsOf(preview).count();
    const button = rowsOf(preview).nth(2).getByRole("button", { name: "Dismiss" });
    const place = placeOf(await button.getAttribute("aria-label"));
    await button.click();
    await until("the list without it", async () => (await rowsOf(preview).count()) === count - 1);
    await overOf(preview).locator("summary").click();
    expect(await titlesOf(overOf(preview).locator("li"))).toEqual([expect.stringContaining(place)]);
    await window.run("notifications.clearAll");
    await overOf(preview).locator("li").hover();
    await until("its ring", async () => (await preview.locator("circle.proposal.chosen").count()) === 1, PATIENT);
    await takePicture(window.page, "survey-dismissed", false);
    await window.run("workbench.action.focusFirstEditorGroup");
    // Of the list, what lies on the sensor is healed by another fix.
    const onFilm = (await titlesOf(rowsOf(preview))).filter((row) => row.startsWith("Film:")).length;
    expect(await assistance.fixes("H0002.dng")).toContain(`Heal the dust on frame 02: ${onFilm} spots`);
    await window.page.keyboard.press("Escape");

    await window.reload();
    await window.run("workbench.action.closeAllEditors");
    await window.openFile(rollFile);
    preview = await opened();
    await until("the list without it", async () => (await rowsOf(preview).count()) === count - 1);
    expect(await overOf(preview).locator("summary").innerText()).toBe("Dismissed: 1");

    await surveyed(() => start(rollFile));
    await window.run("workbench.action.closeActiveEditor");
    preview = await opened();
    expect(await rowsOf(preview).count()).toBe(count - 1);

    await overOf(preview).locator("summary").click();
    await overOf(preview).getByRole("button", { name: "Restore" }).click();
    await until("the whole list", async () => (await rowsOf(preview).count()) === count);
    expect(await overOf(preview).isVisible()).toBe(false);
  });
});
