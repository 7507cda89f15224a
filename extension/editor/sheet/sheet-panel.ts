/** The roll sheet's panel: what it answers beyond what every panel of a roll does. */
import * as vscode from "vscode";
import type { SheetRequests } from "../../messages.ts";
import { countByFrame } from "../../recipe/language/findings.ts";
import type { Handlers } from "../../rpc.ts";
import { askGroups, type CopiedValues } from "../preview/copy.ts";
import { copyEdits } from "../preview/copying.ts";
import { exportChosen } from "../preview/export.ts";
import { applyGesture } from "../preview/recipe-text.ts";
import { type PanelKind, type PanelStart, type PanelTools, RollPanel } from "../preview/roll-panel.ts";
import { fileOf } from "../uris.ts";
import { earlierFrames } from "./earlier-frames.ts";

/** The values that were copied last: they can be pasted into frames of any roll. */
let copied: CopiedValues | undefined;

/** The host of one roll sheet. */
export class SheetPanel extends RollPanel {
  // The base class asks for the handlers while it is made: they find the tools when they are called.
  readonly #tools: PanelTools;

  constructor(
    kind: PanelKind,
    document: vscode.TextDocument,
    panel: vscode.WebviewPanel,
    tools: PanelTools,
    start: PanelStart,
  ) {
    super(kind, document, panel, tools, start);
    this.#tools = tools;
  }

  protected override handlers(): Handlers<SheetRequests> {
    return {
      ...super.handlers(),
      tile: async ({ frame }, { signal }) => {
        const source = this.sourceOf(frame);
        return { ...(await this.#tools.pictures.proxy(this.place(), frame, "tile", signal)), source };
      },
      findings: async () => {
        const { surveys } = this.#tools.services;
        const file = fileOf(this.document.uri);
        if (vscode.workspace.isTrusted) await surveys.recall(file);
        const counts = Object.fromEntries(countByFrame(surveys.findings(await this.readNow())));
        return { surveyed: surveys.of(file) !== undefined, counts };
      },
      confirm: async ({ message, accept }) => ({
        accepted: (await vscode.window.showWarningMessage(message, { modal: true }, accept)) === accept,
      }),
      exportFrames: async ({ frames }) => ({
        files: await exportChosen(this.place(), this.document.uri, frames, {
          pool: this.#tools.pool,
          memory: this.#tools.context.workspaceState,
          log: this.#tools.services.log,
        }),
      }),
      copyValues: async ({ frame }) => {
        const chosen = await askGroups(this.validRoll(), frame, vscode.l10n.t("Copy from frame {0}", frame));
        copied = chosen ?? copied;
        return { copied: chosen !== undefined };
      },
      pasteValues: async ({ frames }) => {
        if (!copied) {
          void vscode.window.showInformationMessage(vscode.l10n.t("Copy values of a frame first."));
          return { pasted: false };
        }
        await applyGesture(this.document, copyEdits(copied.own, copied.groups, frames));
        await this.refresh();
        return { pasted: true };
      },
      earlier: () => earlierFrames(this.document.uri, this.#tools.pool),
      openPreview: async ({ frame }) => {
        await vscode.commands.executeCommand("rollbook.openPreview", this.document.uri, frame);
        return {};
      },
    };
  }
}
