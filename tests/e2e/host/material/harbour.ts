import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { packedExtension } from "../editor/vsix.ts";
import type { Server } from "../editor/server.ts";
import { makeScan, piecesOf, scanName, type Sizes } from "../../../../recipes-examples/make-scan.ts";
import { ROLLS } from "../../../../recipes-examples/roll-plan.ts";
import { scatterDust } from "../../../witness/faults/dust.ts";
import { FORMAT_135 } from "../../../witness/film/format.ts";

const root = resolve(import.meta.dirname, "../../../..");
const demo = join(root, "recipes-examples/harbour");
const small = join(root, ".cache/e2e-scans");

/** Frames of the demo roll that the tests use. */
const FRAMES = 3;

export const rollFile = "harbour/harbour.roll.yaml";
const stockFile = "stocks/northlight-400.stock.yaml";

/** A short recipe of its own, so that the demo's may be worked on; in canonical layout. */
export const recipe = `version: 1
title: Varnhaven, first light
stock: ../stocks/northlight-400.stock.yaml
exposed: { camera: folding 35, lens: 50 mm, date: 2026-05-02, rated: 400, place: Varnhaven }
scans: scans
light:
  blank: LIGHT.dng
  flare: 0.002
negative:
  base: { density: [0.267, 0.586, 0.735], read: { scan: LEADER.dng, area: [0.4, 0.4, 0.2, 0.2] } }
output:
  - { name: web, type: jpeg, quality: 92, space: srgb, long: 2000, sharpen: 0.3 }
frames:
  "01":
    scan: H0001.dng
    area: { left: 0.0417, top: 0.0427, width: 0.9167, height: 0.9167, tilt: -0.4 }
  "02":
    scan: H0002.dng
    area: { left: 0.0432, top: 0.0417, width: 0.9167, height: 0.9167, tilt: -0.3 }
  "03":
    scan: H0003.dng
    area: { left: 0.0439, top: 0.0402, width: 0.9167, height: 0.9167, tilt: -0.15 }
`;
export const files: Record<string, string> = {
  [rollFile]: recipe,
  [stockFile]: readFileSync(join(root, "recipes-examples", stockFile), "utf8"),
};

/**
 * Puts the roll's text back, in every editor that holds one, and closes what is open. The cursor goes to the top first:
 * an editor opens again where its cursor was, which the panels follow.
 */
export async function restoreRoll(server: Pick<Server, "exec">): Promise<void> {
  await server.exec(async (vscode, original) => {
    for (const document of vscode.workspace.textDocuments.filter((d) => d.uri.path.endsWith(".roll.yaml"))) {
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), original);
      await vscode.workspace.applyEdit(edit);
      await document.save();
      await vscode.window.showTextDocument(document, { selection: new vscode.Range(0, 0, 0, 0) });
    }
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    await vscode.commands.executeCommand("workbench.action.closeSidebar");
  }, recipe);
}

/** What a session about the harbour's roll starts with (session.ts). */
export const harbourSession = (settings: Record<string, unknown> = {}) => ({
  vsix: [packedExtension("host")],
  folder: "Varnhaven",
  files,
  prepare: putScans,
  size: { width: 1500, height: 940 },
  settings: { "workbench.startupEditor": "none", ...settings },
});
/** Pixels of the small scans. */
const SIZES: Sizes = { scene: [720, 480], scan: [960, 640] };

/**
 * Puts the demo roll's scans into a folder: the demo's own where it has been made, else small ones, which are drawn once.
 * @param alwaysSmall small ones in any case
 * @param frames how many of the roll's frames
 */
export function putScans(folder: string, alwaysSmall = false, frames = FRAMES): void {
  const scans = join(folder, "harbour/scans");
  mkdirSync(scans, { recursive: true });
  const [plan] = ROLLS;
  const names = [plan.blank, plan.leader, ...plan.shots.slice(0, frames).map((shot) => shot.scan)];
  const full = join(demo, "scans");
  const from = !alwaysSmall && names.every((name) => existsSync(join(full, name))) ? full : drawn(names);
  for (const name of readdirSync(from).filter((n) => names.includes(n)))
    copyFileSync(join(from, name), join(scans, name));
}

/** The demo's whole roll as it lies in recipes-examples, with its stock. */
export const wholeRoll = (): Record<string, string> => ({
  ...files,
  [rollFile]: readFileSync(join(root, "recipes-examples", rollFile), "utf8"),
});

/** Puts all scans of the demo's whole roll into a folder. */
export const putAllScans = (folder: string): void => putScans(folder, false, ROLLS[0].shots.length);

/** Draws the small scans of the whole roll, where they are not there yet: a minute or several of work. */
export function drawAllScans(): void {
  const [plan] = ROLLS;
  drawn([plan.blank, plan.leader, ...plan.shots.map((shot) => shot.scan)]);
}

/** Puts a small scan of frame 02 in place of the good one, with dust on the film that nobody overlooks. */
export function putDustyScan(folder: string): void {
  const [plan] = ROLLS;
  const path = kept("dusty.dng", () => {
    const dust = scatterDust(FORMAT_135, { specks: 45, smallest: 0.1, largest: 0.25 }, 11);
    return makeScan(plan, 1, SIZES, dust);
  });
  copyFileSync(path, join(folder, "harbour/scans", plan.shots[1].scan));
}

function drawn(names: readonly string[]): string {
  const [plan] = ROLLS;
  for (const piece of piecesOf(plan)) {
    const name = scanName(plan, piece);
    if (names.includes(name)) kept(name, () => makeScan(plan, piece, SIZES));
  }
  return small;
}

/** The path of a small scan, drawn if it is not there; whole at every moment, since two test files may draw it at once. */
function kept(name: string, draw: () => Uint8Array): string {
  const path = join(small, name);
  if (existsSync(path)) return path;
  mkdirSync(small, { recursive: true });
  const part = `${path}.${process.pid}.part`;
  writeFileSync(part, draw());
  renameSync(part, path);
  return path;
}
