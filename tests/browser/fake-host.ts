/**
 * A host for the panel without an editor: the recipe is a text in memory, edited through the real recipe code, with undo.
 * It answers every request of extension/messages.ts and keeps count of what was asked.
 */
import { middleOf, type Spot } from "../../extension/engine/image/spot.ts";
import { cascadesOf, isValid, rollState, type ValidRoll } from "../../extension/editor/preview/roll-state.ts";
import { copyEdits, groupsOf } from "../../extension/editor/preview/copying.ts";
import { JobError } from "../../extension/failure.ts";
import type {
  FrameEntry,
  PreviewEvents,
  PreviewRequests,
  Proxy,
  RollState,
  SheetRequestName,
  SheetRequests,
} from "../../extension/messages.ts";
import { createEmitter, createRpcServer, type Handlers, type RpcMessage } from "../../extension/rpc.ts";
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { applyChanges, editRecipe } from "../../extension/recipe/edit/edit.ts";
import { type LoadedRoll, loadDocument, type RecipeFiles } from "../../extension/recipe/resolve/workspace.ts";
import type { Host } from "../../webview/preview/session.ts";

export type Want = "thumbnail" | "tile" | "picture" | Proxy["part"];

export interface FakeHost {
  readonly host: Host;
  text(): string;
  /** Changes the text as typing would. */
  type(text: string): Promise<void>;
  undo(redo?: boolean): Promise<void>;
  /** Requests so far, by name. */
  readonly fromPictures: Partial<Record<SheetRequestName, number>>;
  readonly edits: string[];
  /** Questions that were put before something was lost. */
  readonly questions: string[];
  /** Steps of undo so far. */
  steps(): number;
}

export interface FakeHostOptions {
  readonly text: string;
  readonly stock: string;
  readonly proxyOf: (frame: FrameEntry, want: Want) => Promise<Proxy>;
  readonly baseOf: (
    frame: FrameEntry,
    area: PreviewRequests["base"]["request"]["area"],
  ) => Promise<PreviewRequests["base"]["reply"]>;
  readonly proofOf?: (output: string, screen: "srgb" | "p3") => Promise<Uint8Array>;
  /** Where the panel's messages go to. */
  readonly post: (message: RpcMessage) => void;
  readonly surround?: number;
  readonly trusted?: boolean;
  /** Findings of each frame; without them no scan was surveyed. */
  readonly counts?: Readonly<Record<string, number>>;
  /** How questions are answered. */
  readonly accepts?: boolean;
  /** Milliseconds that an edit and a picture take. */
  readonly slow?: number;
  /** Frames whose crop counts as measured. */
  readonly measured?: readonly string[];
}

const noProof = async (output: string): Promise<never> => {
  throw new Error(
    `matte.icc of output ${output} is not an ICC profile. Name the .icc or .icm file of the printer and paper.`,
  );
};

/** What surveys of every frame propose: two specks on the film, one spot on the sensor. */
const DUST: readonly Spot[] = [
  [0.3, 0.25, 0.004],
  [0.6, 0.4, 0.006],
];
const SENSOR_DUST: readonly Spot[] = [[0.45, 0.35, 0.005]];

const FILE = "harbour/harbour.roll.yaml";
const STOCK = "stocks/northlight-400.stock.yaml";

export function makeFakeHost(options: FakeHostOptions): FakeHost {
  const emit = createEmitter<PreviewEvents>(options.post);
  const history = [options.text];
  let at = 0;
  let version = 1;
  let kept: unknown;
  let loaded: LoadedRoll;
  let sound: ValidRoll | undefined;
  let resolved: RollState | undefined;
  const requested: Partial<Record<SheetRequestName, number>> = {};
  const edits: string[] = [];
  const files: RecipeFiles = {
    roots: [""],
    read: async (path) => (path === STOCK ? options.stock : undefined),
    exists: async () => true,
    list: async () => scansIn(history[at]),
  };
  /** Every scan that the text names is there, but for those called MISSING. */
  const scansIn = (text: string): string[] =>
    [...text.matchAll(/[\w-]+\.(?:dng|tif)/g)].map(([name]) => name).filter((n) => !n.includes("MISSING"));

  async function load(): Promise<void> {
    loaded = await loadDocument(parseRecipe(history[at], { file: FILE, roots: files.roots }), files);
    if (isValid(loaded)) sound = loaded;
    resolved = undefined;
  }
  const measured = new Set(options.measured);
  const state = (): RollState =>
    (resolved ??= rollState(loaded, sound, { version, trusted: options.trusted ?? true, stamp: () => "", measured }));
  const changed = async (): Promise<void> => {
    version++;
    await load();
    emit("roll", state());
  };
  const entryOf = (id: string): FrameEntry => {
    const found = state().frames.find((f) => f.id === id);
    if (!found) throw new JobError({ code: "no-frame", message: `There is no frame ${id} any more.` });
    return found;
  };
  const undo = async (redo = false): Promise<void> => {
    const next = at + (redo ? 1 : -1);
    if (next < 0 || next >= history.length) return;
    at = next;
    await changed();
  };

  async function edit(label: string, wanted: PreviewRequests["edit"]["request"]["edits"]): Promise<number> {
    const text = history[at];
    const changes = editRecipe(
      text,
      wanted.map(({ path, value }) => ({ path, value: value as never })),
      { file: FILE },
    );
    edits.push(label);
    history.splice(at + 1);
    history.push(applyChanges(text, changes));
    at++;
    await changed();
    return version;
  }

  const rest = (): Promise<void> => new Promise((done) => setTimeout(done, options.slow ?? 0));
  const questions: string[] = [];
  let copiedFrom: string | undefined;
  let surveyed = false;
  const dismissed = new Set<string>();
  /** What a survey proposes, less what the text heals by now; apart what was dismissed. */
  const proposalsOf = (id: string): PreviewRequests["proposals"]["reply"] => {
    const { spots, lightSpots } = entryOf(id);
    const fresh = (all: readonly Spot[], known: readonly Spot[], place: string, isDismissed: boolean) =>
      surveyed
        ? all.filter(
            (one) =>
              !known.some((k) => middleOf(k).join(" ") === middleOf(one).join(" ")) &&
              dismissed.has(`${place} ${JSON.stringify(one)}`) === isDismissed,
          )
        : [];
    const of = (isDismissed: boolean) => ({
      film: fresh(DUST, spots, id, isDismissed),
      light: fresh(SENSOR_DUST, lightSpots, "light", isDismissed),
    });
    return { surveyed, ...of(false), dismissed: of(true) };
  };

  const handlers: Handlers<SheetRequests> = {
    async ready({ frame }) {
      await load();
      return { roll: state(), settings: { surround: options.surround ?? 50 }, ...(frame ? { frame } : {}) };
    },
    async cascades({ frame, paths }) {
      return { version, cascades: sound ? cascadesOf(sound, frame, paths) : [] };
    },
    thumbnail: async ({ frame }) => await options.proxyOf(entryOf(frame), "thumbnail"),
    async picture({ frame }) {
      await rest();
      return await options.proxyOf(entryOf(frame), "picture");
    },
    unhealed: async ({ frame }) => await options.proxyOf(entryOf(frame), "picture"),
    detail: async ({ frame, part }) => await options.proxyOf(entryOf(frame), part),
    proof: async ({ output, screen }) => ({ table: await (options.proofOf ?? noProof)(output, screen) }),
    base: async ({ frame, area }) => await options.baseOf(entryOf(frame), area),
    async edit({ label, edits: wanted }) {
      await rest();
      return { version: await edit(label, wanted) };
    },
    async undo({ redo }) {
      await undo(redo);
      return { version };
    },
    export: async ({ frame }) => ({ files: [`${frame}.jpg`] }),
    copy: async () => ({ frames: [] }),
    tile: async ({ frame }) => await options.proxyOf(entryOf(frame), "tile"),
    findings: async () => ({ surveyed: options.counts !== undefined, counts: options.counts ?? {} }),
    async confirm({ message }) {
      questions.push(message);
      return { accepted: options.accepts ?? true };
    },
    exportFrames: async ({ frames }) => ({ files: frames.map((frame) => `${frame}.jpg`) }),
    copyValues: async ({ frame }) => {
      copiedFrom = frame;
      return { copied: true };
    },
    async pasteValues({ frames }) {
      if (copiedFrom === undefined) return { pasted: false };
      const own = (loaded.roll.value as { frames: Record<string, unknown> }).frames[copiedFrom];
      await edit("pasted", copyEdits(own, groupsOf(own), frames));
      return { pasted: true };
    },
    earlier: async () => ({
      label: "v1",
      frames: state()
        .frames.slice(0, 2)
        .map(({ id, look, area, turn, mirror }) => ({ id, look: { ...look, exposure: -2 }, area, turn, mirror })),
    }),
    openPreview: async () => ({}),
    reveal: async () => ({}),
    select: async () => ({}),
    proposals: async ({ frame }) => proposalsOf(frame),
    async dismiss({ frame, kind, spot, dismissed: isDismissed }) {
      const key = `${kind === "light" ? kind : frame} ${JSON.stringify(spot)}`;
      if (isDismissed) dismissed.add(key);
      else dismissed.delete(key);
      emit("surveyed", null);
      return {};
    },
    async survey() {
      surveyed = true;
      emit("surveyed", null);
      return {};
    },
  };
  const server = createRpcServer(handlers, (message) => options.post(structuredClone(message)));
  return {
    host: {
      postMessage(message) {
        const received = structuredClone(message) as RpcMessage;
        if (received.kind === "request") {
          const name = received.name as SheetRequestName;
          requested[name] = (requested[name] ?? 0) + 1;
        }
        server.receive(received);
      },
      getState: () => kept,
      setState: (next) => (kept = structuredClone(next)),
    },
    text: () => history[at],
    async type(text) {
      history.splice(at + 1);
      history.push(text);
      at++;
      await changed();
    },
    undo,
    fromPictures: requested,
    edits,
    questions,
    steps: () => history.length - 1,
  };
}
