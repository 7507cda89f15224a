/** A recipe where not all is as usual: a folder that is not trusted, another extension for YAML, a long roll, the demo. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { files, quiet, rollFile } from "./host/material/rolls.ts";
import { useSession } from "./host/session.ts";
import { packedExtension } from "./host/editor/vsix.ts";

const size = { width: 1200, height: 760 };

describe("a folder that is not trusted", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Fremde Fotos für alle",
    files,
    size,
    settings: quiet,
    trusted: false,
  }));

  it("has the text features, and neither pictures nor folders that settings allow", async () => {
    const { window, server, text, assistance, picture } = session();
    await window.openFile(rollFile);
    expect(await server.exec((vscode) => vscode.workspace.isTrusted)).toBe(false);
    await text.replace("contrast: 1.7", "contrast: 17");
    await text.waitForProblems("the problem", (all) => all.some(({ code }) => code === "out-of-range"));
    expect(await assistance.hover("contrast: 17")).toContain("slope at mid-grey");
    await assistance.dismiss();
    expect(await assistance.lenses()).not.toContainEqual(expect.stringContaining("Preview"));
    await picture("editor-restricted");
  });
});

describe("beside a YAML extension", () => {
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    unpacked: [join(import.meta.dirname, "host/editor/stand-ins/yaml-extension")],
    folder: "Fotos",
    files,
    settings: quiet,
  }));

  it("leaves to it what a schema can tell, and still corrects it", async () => {
    const { window, server, text, assistance } = session();
    await window.openFile(rollFile);
    await text.replace("filtration", "filtraton");
    await text.replace("H0003.dng", "H0009.dng");
    const problems = await text.waitForProblems("the missing scan", (all) =>
      all.some(({ code }) => code === "missing-scan"),
    );
    expect(problems.map(({ code }) => code)).toEqual(["missing-scan"]);
    expect(await assistance.fixes("filtraton")).toContain("Change to filtration");
    await assistance.dismiss();
    await server.exec((vscode) =>
      vscode.workspace.getConfiguration("rollbook").update("diagnostics.structural", "always", true),
    );
    await text.waitForProblems("both problems", (all) => all.length === 2);
  });
});

describe("a roll of two thousand frames", () => {
  const frames = Array.from({ length: 2000 }, (_, i) => {
    const id = `${String((i % 999) + 1).padStart(2, "0")}${["", "A", "B"][Math.floor(i / 999)]}`;
    return `  "${id}":\n    scan: H${i}.dng\n    positive: { exposure: 0.3, filtration: { magenta: 4 } }\n`;
  });
  const long = `version: 1\nframes:\n${frames.join("")}`;
  const session = useSession(() => ({
    vsix: [packedExtension("host")],
    folder: "Archiv",
    files: { "long.roll.yaml": long },
    settings: { ...quiet, "rollbook.diagnostics.missingScans": false },
  }));

  it("takes every key at once, and is checked a moment after the last", async () => {
    const { window, server, text } = session();
    await window.openFile("long.roll.yaml");
    const lenses = window.page.locator(".codelens-decoration");
    await lenses.first().waitFor();
    await text.caret("version: 1", true);
    await window.page.keyboard.press("Enter");

    // The extension host tells how long it did not get to answer.
    await server.exec(() => {
      const watch = globalThis as unknown as { worst: number; timer: NodeJS.Timeout };
      let last = performance.now();
      watch.worst = 0;
      watch.timer = setInterval(() => {
        const now = performance.now();
        watch.worst = Math.max(watch.worst, now - last - 10);
        last = now;
      }, 10);
    });
    const delays: number[] = [];
    for (const key of "title: A roll of many frames") {
      const start = performance.now();
      await window.page.keyboard.press(key === " " ? "Space" : key);
      await window.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
      delays.push(performance.now() - start);
    }
    await window.page.keyboard.press("Escape");
    await text.waitForText("the title", (now) => now.includes("title: A roll of many frames"));
    const whileTyping = await server.exec(() => (globalThis as unknown as { worst: number }).worst);
    const start = performance.now();
    await text.waitForProblems("no problem", (all) => all.length === 0);
    await text.replace("title: A", "titel: A");
    await text.waitForProblems("the misspelt key", (all) => all.some(({ text: at }) => at === "titel"));
    const checked = performance.now() - start;
    const worst = await server.exec(() => {
      const watch = globalThis as unknown as { worst: number; timer: NodeJS.Timeout };
      clearInterval(watch.timer);
      return watch.worst;
    });
    delays.sort((a, b) => a - b);
    const report = {
      medianKey: delays[delays.length >> 1]!,
      slowestKey: delays.at(-1)!,
      hostBusyWhileTyping: whileTyping,
      hostBusyAtWorst: worst,
      checked,
    };
    console.log(
      "2,000 frames, in milliseconds:",
      Object.fromEntries(Object.entries(report).map(([key, value]) => [key, Math.round(value)])),
    );
    expect(report.medianKey).toBeLessThan(200);
    expect(worst).toBeLessThan(4000);
  });
});

describe("the demo's roll", () => {
  const root = join(import.meta.dirname, "../../recipes-examples");
  const names = ["harbour/harbour.roll.yaml", "stocks/northlight-400.stock.yaml"];
  const session = useSession(() => ({
    vsix: [packedExtension("universal")],
    folder: "Demo",
    files: Object.fromEntries(names.map((name) => [name, readFileSync(join(root, name), "utf8")])),
    size,
  }));

  it("has no fault but that its scans are not there", async () => {
    const { window, text } = session();
    await window.openFile("harbour/harbour.roll.yaml");
    const problems = await text.waitForProblems("the missing scans", (all) => all.length > 0);
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(["missing-scan"]));
  });
});
