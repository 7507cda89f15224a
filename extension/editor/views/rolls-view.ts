/** The Rolls view: the workspace's rolls with their frames, problems and findings. */
import * as vscode from "vscode";
import { countByFrame, findingCount } from "../../recipe/language/findings.ts";
import { type FrameSummary, rollSummary, type RollSummary } from "../../recipe/language/roll-summary.ts";
import type { Reading } from "../../recipe/language/document-cache.ts";
import { toRange } from "../ranges.ts";
import type { TextServices } from "../services.ts";
import { asShown } from "../settings.ts";
import { fileOf, isRecipe, uriOf } from "../uris.ts";

type Node = RollNode | FrameNode;

interface RollNode {
  readonly kind: "roll";
  /** Replaced whenever the recipe is reread. */
  roll: RollSummary;
  frames: readonly FrameNode[];
  /** What the last survey of its scans found; undefined where none was made. */
  findings?: number;
}

interface FrameNode {
  readonly kind: "frame";
  readonly parent: RollNode;
  readonly frame: FrameSummary;
  readonly findings: number;
}

/**
 * The rolls of the workspace with their frames: what is wrong, which scans are missing, and what surveys found. Read
 * only while visible.
 */
export function registerRollsView(services: TextServices): vscode.Disposable {
  const rolls = new Rolls(services);
  const view = vscode.window.createTreeView("rollbook.rolls", { treeDataProvider: rolls, showCollapseAll: true });
  const follow = async () => {
    const editor = vscode.window.activeTextEditor;
    if (!view.visible || !editor || !isRecipe(editor.document.uri)) return;
    const node = rolls.frameAt(editor.document.uri, editor.selection.active);
    if (node) await view.reveal(node, { select: true, focus: false });
  };
  // From here on the view is there whatever is open: rolls, or the way to the first one.
  void vscode.commands.executeCommand("setContext", "rollbook.active", true);
  return vscode.Disposable.from(
    view,
    rolls,
    vscode.window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      if (textEditor === vscode.window.activeTextEditor && kind !== undefined) void follow();
    }),
    vscode.commands.registerCommand("rollbook.refreshRolls", () => services.recipes.invalidate()),
  );
}

class Rolls implements vscode.TreeDataProvider<Node>, vscode.Disposable {
  readonly #services: TextServices;
  readonly #changed = new vscode.EventEmitter<Node | undefined>();
  readonly #subscriptions: vscode.Disposable;
  readonly #known = new Map<string, RollNode>();
  readonly onDidChangeTreeData = this.#changed.event;

  constructor(services: TextServices) {
    this.#services = services;
    const { recipes, surveys } = services;
    this.#subscriptions = vscode.Disposable.from(
      this.#changed,
      recipes.onDidRead(({ document, reading }) => {
        const node = this.#known.get(fileOf(document.uri));
        if (!node) return;
        this.#fill(node, asShown(reading, document));
        this.#changed.fire(node);
      }),
      surveys.onDidChange((file) => void this.#refresh(file)),
      recipes.onDidInvalidate(() => this.#changed.fire(undefined)),
    );
  }

  async getChildren(node?: Node): Promise<Node[]> {
    if (node) return node.kind === "roll" ? [...node.frames] : [];
    const { recipes, surveys } = this.#services;
    const found: RollNode[] = [];
    for (const file of await recipes.files.find("roll")) {
      const read = await recipes.file(uriOf(file));
      const reading = read && asShown(read, uriOf(file));
      if (!reading) continue;
      if (vscode.workspace.isTrusted) await surveys.recall(file);
      found.push(
        this.#fill(this.#known.get(file) ?? { kind: "roll", roll: rollSummary(reading), frames: [] }, reading),
      );
    }
    this.#known.clear();
    for (const one of found) this.#known.set(one.roll.file, one);
    return found;
  }

  getParent(node: Node): Node | undefined {
    return node.kind === "frame" ? node.parent : undefined;
  }

  getTreeItem(node: Node): vscode.TreeItem {
    return node.kind === "roll" ? this.#rollItem(node) : this.#frameItem(node);
  }

  /** The frame whose text a place is in. */
  frameAt(uri: vscode.Uri, at: vscode.Position): Node | undefined {
    return this.#known.get(fileOf(uri))?.frames.findLast(({ frame }) => frame.range.start.line <= at.line);
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  /** Reads one roll again, where the view has it. */
  async #refresh(file: string): Promise<void> {
    const uri = uriOf(file);
    const reading = this.#known.has(file) ? await this.#services.recipes.file(uri) : undefined;
    const node = this.#known.get(file);
    if (!node || !reading) return;
    this.#fill(node, asShown(reading, uri));
    this.#changed.fire(node);
  }

  /** Puts what was read into a roll's node; the node stays the same for the view. */
  #fill(node: RollNode, reading: Reading): RollNode {
    const { surveys } = this.#services;
    const found = surveys.findings(reading);
    const counts = countByFrame(found);
    node.roll = rollSummary(reading);
    node.findings = surveys.of(node.roll.file) ? found.length : undefined;
    node.frames = node.roll.frames.map((frame): FrameNode => ({
      kind: "frame",
      parent: node,
      frame,
      findings: counts.get(frame.id) ?? 0,
    }));
    return node;
  }

  #rollItem({ roll, findings }: RollNode): vscode.TreeItem {
    const { t } = this.#services;
    const uri = uriOf(roll.file);
    const name = vscode.workspace.asRelativePath(uri);
    const item = new vscode.TreeItem(roll.title ?? name, vscode.TreeItemCollapsibleState.Collapsed);
    const { frames, errors, warnings } = roll;
    const count = frames.length === 1 ? t("1 frame") : t("{0} frames", frames.length);
    item.id = roll.file;
    item.description = [count, counted(errors + warnings, t), findings !== undefined && findingCount(findings, t)]
      .filter(Boolean)
      .join(" · ");
    item.tooltip = name;
    item.iconPath = icon(errors, warnings, "book");
    item.contextValue = "roll";
    item.command = { command: "vscode.open", title: t("Open the recipe"), arguments: [uri] };
    return item;
  }

  #frameItem({ parent: { roll }, frame, findings }: FrameNode): vscode.TreeItem {
    const { t } = this.#services;
    const item = new vscode.TreeItem(frame.id, vscode.TreeItemCollapsibleState.None);
    const { missing, scans, skip, choice, rank, errors, warnings } = frame;
    const state = missing.length > 0 ? t("scan missing") : skip ? t("skipped") : undefined;
    const others = errors + warnings - missing.length;
    item.id = `${roll.file}\n${frame.id}`;
    const chosen = choice === "reject" ? t("reject") : choice === "keep" ? t("keep") : undefined;
    const ranked = rank === undefined ? undefined : t("rank {0}", rank);
    const found = findings > 0 && findingCount(findings, t);
    item.description = [frame.title ?? scans.join(", "), state, chosen, ranked, counted(others, t), found]
      .filter(Boolean)
      .join(" · ");
    item.tooltip = missing.length > 0 ? t("Not found: {0}", missing.join(", ")) : scans.join(", ");
    item.iconPath =
      missing.length > 0 && errors === 0
        ? new vscode.ThemeIcon("circle-slash", new vscode.ThemeColor("list.warningForeground"))
        : icon(errors, warnings, skip ? "circle-outline" : "device-camera");
    item.contextValue = "frame";
    item.accessibilityInformation = {
      label: t("Frame {0}", frame.id) + (item.description ? `, ${item.description}` : ""),
    };
    const selection = toRange(frame.range);
    item.command = {
      command: "vscode.open",
      title: t("Show the frame"),
      arguments: [uriOf(roll.file), { selection, preserveFocus: true }],
    };
    return item;
  }
}

function counted(count: number, t: TextServices["t"]): string | undefined {
  if (count <= 0) return undefined;
  return count === 1 ? t("1 problem") : t("{0} problems", count);
}

function icon(errors: number, warnings: number, otherwise: string): vscode.ThemeIcon {
  if (errors > 0) return new vscode.ThemeIcon("error", new vscode.ThemeColor("list.errorForeground"));
  if (warnings > 0) return new vscode.ThemeIcon("warning", new vscode.ThemeColor("list.warningForeground"));
  return new vscode.ThemeIcon(otherwise);
}
