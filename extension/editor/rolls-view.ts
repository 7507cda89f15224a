import * as vscode from "vscode";
import { type FrameOverview, overview, type RollOverview } from "../recipe/language/overview.ts";
import { toRange } from "./ranges.ts";
import type { EditorServices } from "./services.ts";
import { isRecipe, uriOf } from "./uris.ts";

type Node = RollNode | FrameNode;

interface RollNode {
  readonly kind: "roll";
  readonly roll: RollOverview;
}

interface FrameNode {
  readonly kind: "frame";
  readonly roll: RollOverview;
  readonly frame: FrameOverview;
}

/** The rolls of the workspace with their frames: what is wrong, and which scans are not there. Read only while visible. */
export function registerRollsView(services: EditorServices): vscode.Disposable {
  const rolls = new Rolls(services);
  const view = vscode.window.createTreeView("rollbook.rolls", { treeDataProvider: rolls, showCollapseAll: true });
  const follow = async () => {
    const editor = vscode.window.activeTextEditor;
    if (!view.visible || !editor || !isRecipe(editor.document.uri)) return;
    const node = rolls.frameAt(editor.document.uri, editor.selection.active);
    if (node) await view.reveal(node, { select: true, focus: false });
  };
  return vscode.Disposable.from(
    view,
    rolls,
    vscode.window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
      if (textEditor === vscode.window.activeTextEditor && kind !== undefined) void follow();
    }),
    vscode.commands.registerCommand("rollbook.refreshRolls", () => services.recipes.worldChanged()),
  );
}

class Rolls implements vscode.TreeDataProvider<Node>, vscode.Disposable {
  readonly #services: EditorServices;
  readonly #changed = new vscode.EventEmitter<Node | undefined>();
  readonly #subscriptions: vscode.Disposable;
  readonly #known = new Map<string, { roll: RollNode; frames: Map<string, FrameNode> }>();
  readonly onDidChangeTreeData = this.#changed.event;

  constructor(services: EditorServices) {
    this.#services = services;
    const { recipes } = services;
    this.#subscriptions = vscode.Disposable.from(
      this.#changed,
      recipes.onDidRead(() => this.#changed.fire(undefined)),
      recipes.onDidChangeWorld(() => this.#changed.fire(undefined)),
    );
  }

  async getChildren(node?: Node): Promise<Node[]> {
    if (node) return node.kind === "roll" ? [...(this.#known.get(node.roll.file)?.frames.values() ?? [])] : [];
    const { recipes } = this.#services;
    const files = await recipes.files.find("roll");
    const found: RollNode[] = [];
    this.#known.clear();
    for (const file of files) {
      const reading = await recipes.file(uriOf(file));
      if (!reading) continue;
      const roll: RollNode = { kind: "roll", roll: overview(reading) };
      const frames = roll.roll.frames.map((frame) => [frame.id, { kind: "frame", roll: roll.roll, frame }] as const);
      this.#known.set(file, { roll, frames: new Map(frames) });
      found.push(roll);
    }
    return found;
  }

  getParent(node: Node): Node | undefined {
    return node.kind === "frame" ? this.#known.get(node.roll.file)?.roll : undefined;
  }

  getTreeItem(node: Node): vscode.TreeItem {
    return node.kind === "roll" ? this.#rollItem(node.roll) : this.#frameItem(node);
  }

  /** The frame whose text a place is in. */
  frameAt(uri: vscode.Uri, at: vscode.Position): Node | undefined {
    const known = [...this.#known].find(([file]) => uriOf(file).toString() === uri.toString())?.[1];
    return known && [...known.frames.values()].findLast(({ frame }) => frame.range.start.line <= at.line);
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  #rollItem(roll: RollOverview): vscode.TreeItem {
    const { say } = this.#services;
    const uri = uriOf(roll.file);
    const name = vscode.workspace.asRelativePath(uri);
    const item = new vscode.TreeItem(roll.title ?? name, vscode.TreeItemCollapsibleState.Collapsed);
    const { frames, errors, warnings } = roll;
    const count = frames.length === 1 ? say("1 frame") : say("{0} frames", frames.length);
    item.id = roll.file;
    item.resourceUri = undefined;
    item.description = [count, counted(errors + warnings, say)].filter(Boolean).join(" · ");
    item.tooltip = name;
    item.iconPath = icon(errors, warnings, "book");
    item.contextValue = "roll";
    item.command = { command: "vscode.open", title: say("Open the recipe"), arguments: [uri] };
    return item;
  }

  #frameItem({ roll, frame }: FrameNode): vscode.TreeItem {
    const { say } = this.#services;
    const item = new vscode.TreeItem(frame.id, vscode.TreeItemCollapsibleState.None);
    const { missing, scans, skip, errors, warnings } = frame;
    const state = missing.length > 0 ? say("scan missing") : skip ? say("skipped") : undefined;
    const others = errors + warnings - missing.length;
    item.id = `${roll.file}\n${frame.id}`;
    item.description = [frame.title ?? scans.join(", "), state, counted(others, say)].filter(Boolean).join(" · ");
    item.tooltip = missing.length > 0 ? say("Not there: {0}", missing.join(", ")) : scans.join(", ");
    item.iconPath =
      missing.length > 0 && errors === 0
        ? new vscode.ThemeIcon("circle-slash", new vscode.ThemeColor("list.warningForeground"))
        : icon(errors, warnings, skip ? "circle-outline" : "device-camera");
    item.contextValue = "frame";
    item.accessibilityInformation = {
      label: say("Frame {0}", frame.id) + (item.description ? `, ${item.description}` : ""),
    };
    const selection = toRange(frame.range);
    item.command = {
      command: "vscode.open",
      title: say("Show the frame"),
      arguments: [uriOf(roll.file), { selection, preserveFocus: true }],
    };
    return item;
  }
}

function counted(count: number, say: EditorServices["say"]): string | undefined {
  if (count <= 0) return undefined;
  return count === 1 ? say("1 problem") : say("{0} problems", count);
}

function icon(errors: number, warnings: number, otherwise: string): vscode.ThemeIcon {
  if (errors > 0) return new vscode.ThemeIcon("error", new vscode.ThemeColor("list.errorForeground"));
  if (warnings > 0) return new vscode.ThemeIcon("warning", new vscode.ThemeColor("list.warningForeground"));
  return new vscode.ThemeIcon(otherwise);
}
