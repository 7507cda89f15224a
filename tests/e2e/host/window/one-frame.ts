/** The preview of a roll that has one frame. */
import type { Frame } from "playwright-core";
import { until } from "../wait.ts";
import type { EditorWindow } from "./window.ts";

/** Milliseconds for scans to be decoded and laid on each other, on a machine that does other things too. */
export const WAITING = { limit: 120_000 };

/** Opens a roll and its preview, and waits for the frame's picture. */
export async function previewOfOneFrame(window: EditorWindow, roll: string): Promise<Frame> {
  await window.openFile(roll);
  await window.run("rollbook.openPreview");
  const panel = await window.webview(() => document.querySelector("#panel .stage") !== null);
  await until("its frame", async () => (await panel.locator(".tile").count()) === 1, WAITING);
  await until("its picture", async () => (await panel.locator(".notices .busy").count()) === 0, WAITING);
  return panel;
}
