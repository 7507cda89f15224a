/** The soft proof of a sheet in a real editor, by the keyboard: on, compared, hatched, with a broken profile, and whole again. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { describe, expect, it } from "vitest";
import { modelProfile } from "../witness/printer/printer-profile.ts";
import { harbourSession, recipe, rollFile } from "./host/material/harbour.ts";
import { useSession } from "./host/session.ts";
import { LIMIT } from "./host/wait.ts";

const PATIENT = { timeout: 60_000 };
const PRINT = `output:
  - { name: wall, type: tiff, print: { paper: A4, profile: ../profiles/matte.icc, intent: relative-colorimetric } }
`;

/** The last frame with colours that no paper has. */
const vivid = (text: string): string => `${text}    positive: { saturation: 1.6 }\n`;

describe("the soft proof", () => {
  const session = useSession(() => {
    const harbour = harbourSession({ "editor.minimap.enabled": false });
    return {
      ...harbour,
      size: { width: 1280, height: 720 },
      files: { ...harbour.files, [rollFile]: vivid(recipe.replace(/output:\n.*\n/, PRINT)) },
      prepare(folder: string) {
        harbour.prepare(folder);
        mkdirSync(join(folder, "profiles"));
        writeProfile(folder);
      },
    };
  });
  const writeProfile = (folder: string, bytes = modelProfile("RGB")): void =>
    writeFileSync(join(folder, "profiles/matte.icc"), bytes);

  it("is switched, compared and hatched by keys, and says what a broken profile needs", async () => {
    const { window, folder, picture } = session();
    const { keyboard } = window.page;
    await window.openFile(rollFile);
    await window.run("workbench.action.closeSidebar");
    await window.run("rollbook.openPreview");
    const panel: Frame = await window.webview(() => document.querySelector("#panel .stage") !== null);
    await expect.poll(() => panel.locator(".frame-name").textContent(), PATIENT).toBe("01");
    await expect.poll(() => panel.locator(".notices .busy").count(), PATIENT).toBe(0);
    const legend = panel.locator(".legend");
    /** The lightest and darkest green of the picture's middle, as the screen shows it. */
    const range = async (): Promise<readonly [number, number]> => {
      const box = (await panel.locator(".stage").boundingBox())!;
      const clip = {
        x: box.x + box.width * 0.2,
        y: box.y + box.height * 0.3,
        width: box.width * 0.6,
        height: box.height * 0.4,
      };
      const { default: sharp } = await import("sharp");
      const { channels } = await sharp(await window.page.screenshot({ clip }))
        .removeAlpha()
        .stats();
      return [channels[1]!.min, channels[1]!.max];
    };
    const plain = await range();
    await panel.locator(".stage").focus();
    await keyboard.press("p");
    await expect.poll(() => legend.textContent(), PATIENT).toContain("Proof: wall · matte.icc · relative-colorimetric");
    // Paper is darker than a white screen, and its black lighter than a black one.
    await expect.poll(async () => (await range())[0], { timeout: LIMIT }).toBeGreaterThan(plain[0] + 8);
    expect((await range())[1]).toBeLessThan(plain[1]);

    await keyboard.press("Shift+?");
    await expect
      .poll(() => panel.locator("dialog.help").textContent())
      .toContain("proof: the print as it looks on paper");
    await keyboard.press("Escape");
    await panel.locator("vscode-button[title^='Wipe']").click();
    await panel.locator("vscode-dropdown[aria-label^='Compare with']").evaluate((list) => {
      (list as HTMLSelectElement).value = "unproofed";
      list.dispatchEvent(new Event("change"));
    });
    await panel.locator("vscode-button[title^='Hatch']").click();
    await panel.locator(".tile").nth(2).click();
    await expect.poll(() => panel.locator(".frame-name").textContent(), PATIENT).toBe("03");
    await expect.poll(() => panel.locator(".notices .busy").count(), PATIENT).toBe(0);
    await window.page.waitForTimeout(800);
    await picture("preview-proof");
    await panel.locator(".tile").nth(0).click();
    await expect.poll(() => panel.locator(".frame-name").textContent(), PATIENT).toBe("01");
    await panel.locator("vscode-button[title^='One picture']").click();
    await panel.locator("vscode-button[title^='Hatch']").click();

    writeProfile(folder, new TextEncoder().encode("no profile at all, but text"));
    const notice = panel.locator(".notices");
    await expect.poll(() => notice.textContent(), PATIENT).toContain("matte.icc is not an ICC profile");
    expect(await notice.textContent()).toContain("Name the .icc or .icm file of the printer and paper.");
    await expect.poll(range, { timeout: LIMIT }).toEqual(plain);
    writeProfile(folder);
    await expect.poll(() => notice.isVisible(), PATIENT).toBe(false);
    await expect.poll(async () => (await range())[0], { timeout: LIMIT }).toBeGreaterThan(plain[0] + 8);
    await panel.locator(".stage").focus();
    await keyboard.press("p");
    await expect.poll(range, { timeout: LIMIT }).toEqual(plain);
  });
});
