/**
 * What the preview panel and the extension host say to one another. Everything is plain data that survives
 * `postMessage`. Requests go from the panel to the host and always settle: with a value, a typed failure, or a timeout.
 * Events go from the host to the panel; those sent to a hidden panel are lost, so it asks for the state when it is ready.
 */
import type { Turn } from "./engine/image/geometry.ts";
import type { Spot } from "./engine/image/heal.ts";
import type { Area, FrameLook, OutputSpace, Rgb } from "./engine/types.ts";

/** Where in a recipe a value sits. */
export type ValuePath = readonly (string | number)[];

/** One changed value; `undefined` takes the key out, so that the inherited value shows again. */
export interface ValueEdit {
  readonly path: ValuePath;
  readonly value: unknown;
}

/** A value as one level of the cascade states it. */
export interface Stated {
  readonly value: unknown;
  /** Name of the file, for people. */
  readonly file: string;
  /** Line in the file, from 1. */
  readonly line: number;
}

/** What each level says of one value; the nearest wins. */
export interface Cascade {
  readonly frame?: Stated;
  readonly roll?: Stated;
  readonly stock?: Stated;
  /** What holds where no level says anything. */
  readonly fallback: unknown;
}

/** A frame as the strip and the picture need it. */
export interface FrameEntry {
  readonly id: string;
  /** Names of its scans. */
  readonly scans: readonly string[];
  readonly skip: boolean;
  readonly note?: string;
  readonly look: FrameLook;
  readonly area: Area;
  readonly turn: Turn;
  readonly mirror: boolean;
  /** On the film, and on the sensor or lens. */
  readonly spots: readonly Spot[];
  readonly lightSpots: readonly Spot[];
  /** Colour space of the frame's first output. */
  readonly space: OutputSpace;
  /** Changes when another proxy has to be fetched: scans, light, spots. */
  readonly source: string;
}

/** A problem as the panel names it beside the picture. */
export interface PanelProblem {
  readonly severity: "error" | "warning" | "info";
  readonly message: string;
  readonly file: string;
  readonly line: number;
  /** The frame that it is about, where it is about one. */
  readonly frame?: string;
}

/** A roll, resolved. With `stale` the text has errors and the frames are those of the last text without. */
export interface RollState {
  /** Version of the text that the state was made from. */
  readonly version: number;
  readonly title: string;
  readonly file: string;
  readonly frames: readonly FrameEntry[];
  /** The look of a frame that states nothing of its own. */
  readonly shared?: FrameLook;
  readonly problems: readonly PanelProblem[];
  readonly stale: boolean;
  /** Without trust there are no pictures. */
  readonly trusted: boolean;
}

/** The settings that the panel follows. */
export interface PanelSettings {
  /** L* of the surround of the picture; it never follows the theme. */
  readonly surround: number;
}

/** The bare light behind a proxy, coarse: the camera's signal is (T·(1 − flare) + flare) · level · ratio. */
export interface ProxyLight {
  readonly columns: number;
  readonly rows: number;
  readonly channels: 1 | 3;
  readonly level: readonly number[];
  readonly flare: Rgb;
  /** Exposure of the scan over that of the blank. */
  readonly ratio: number;
}

/** A scan as transmittance, log-coded (engine/plan/log-code.ts): three channels, row by row. */
export interface Proxy {
  readonly source: string;
  /** The whole scan's pixels. */
  readonly scanWidth: number;
  readonly scanHeight: number;
  /** The part of the scan that it shows, in fractions of the scan. */
  readonly part: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  readonly width: number;
  readonly height: number;
  /** Little-endian 16-bit codes. */
  readonly codes: Uint8Array;
  /** Channel weights for one-channel film, from the light. */
  readonly weights: Rgb;
  readonly light?: ProxyLight;
  /** Sentences about the scan: JPEG, no blank, no exposure … */
  readonly warnings: readonly string[];
}

/** All requests: what the panel asks, and what it is answered. */
export interface Requests {
  /** The panel is there: it wants the state. `frame` is the one that it showed before a reload. */
  ready: { ask: { frame?: string }; answer: { roll: RollState; settings: PanelSettings; frame?: string } };
  /** Values of a frame on every level, by control; see `ControlKey` in the panel. */
  cascades: {
    ask: { frame: string; paths: readonly ValuePath[] };
    answer: { version: number; cascades: readonly Cascade[] };
  };
  thumbnail: { ask: { frame: string }; answer: Proxy };
  picture: { ask: { frame: string }; answer: Proxy };
  /** A part of the scan at its full resolution; the rectangle is in fractions of the scan. */
  detail: { ask: { frame: string; part: Proxy["part"] }; answer: Proxy };
  base: {
    ask: { frame: string; area: readonly [number, number, number, number] };
    /** `area` is that of the scan that was read: one of several, where the frame is joined. */
    answer: { density: Rgb; scatter: Rgb; scan: string; area: readonly [number, number, number, number] };
  };
  /** One gesture: one change of the text, one step of undo. */
  edit: { ask: { label: string; edits: readonly ValueEdit[] }; answer: { version: number } };
  undo: { ask: { redo: boolean }; answer: { version: number } };
  /** Writes the frame's outputs; the host asks where to. */
  export: { ask: { frame: string }; answer: { files: readonly string[] } };
  /** Copies the frame's own values to others; the host asks which. */
  copy: { ask: { frame: string }; answer: { frames: readonly string[] } };
  /** Shows a value, or a frame, in the text. */
  reveal: {
    ask: { frame?: string; path?: ValuePath; level?: "frame" | "roll" | "stock" };
    answer: Record<never, never>;
  };
  /** Spots that the last survey proposes for a frame and that the recipe does not heal yet. */
  proposals: {
    ask: { frame: string };
    answer: {
      /** False where no survey of this frame's scan, as it is now, is kept. */
      surveyed: boolean;
      /** On the film of this frame, and on sensor or lens for every frame. */
      film: readonly Spot[];
      light: readonly Spot[];
      /** Those that were passed over; they are not among the others. */
      passed: { readonly film: readonly Spot[]; readonly light: readonly Spot[] };
    };
  };
  /** Passes a proposed spot over for good, or proposes it again. The recipe says nothing of it. */
  pass: { ask: { frame: string; kind: "film" | "light"; spot: Spot; over: boolean }; answer: Record<never, never> };
  /** Surveys the roll's scans; answered when it is done, or was stopped. */
  survey: { ask: Record<never, never>; answer: Record<never, never> };
  /** The panel moved to a frame: the text cursor follows. */
  select: { ask: { frame: string }; answer: Record<never, never> };
}
export type RequestName = keyof Requests;

/** What the host tells unasked. */
export type HostEvent =
  | { readonly event: "roll"; readonly roll: RollState }
  | { readonly event: "settings"; readonly settings: PanelSettings }
  | { readonly event: "show"; readonly frame: string }
  /** There is a new survey of the roll, or the scans of the last one have changed. */
  | { readonly event: "surveyed" };

/** Why a request has no value. `cancelled` and `timed-out` are made by the asking side itself. */
export interface FailureNote {
  readonly code: string;
  /** A sentence: what is wrong, and what to do. */
  readonly message: string;
}

export type ToHost =
  | { readonly kind: "ask"; readonly id: number; readonly name: RequestName; readonly ask: unknown }
  | { readonly kind: "cancel"; readonly id: number }
  /** How the panel looks at the roll, for a reload of the window; it is no request, and nothing answers it. */
  | { readonly kind: "keep"; readonly state: unknown };

export type ToPanel =
  | { readonly kind: "answer"; readonly id: number; readonly value: unknown }
  | { readonly kind: "failed"; readonly id: number; readonly failure: FailureNote }
  | ({ readonly kind: "event" } & HostEvent);

/** A request that came to nothing. */
export class RequestError extends Error {
  readonly code: string;

  constructor(failure: FailureNote) {
    super(failure.message);
    this.name = "RequestError";
    this.code = failure.code;
  }
}

export interface AskOptions {
  readonly signal?: AbortSignal;
  /** Milliseconds until the request fails by itself; half a minute where not given. */
  readonly limit?: number;
}

/** Sends requests and settles them. */
export interface Asker {
  ask<N extends RequestName>(name: N, ask: Requests[N]["ask"], options?: AskOptions): Promise<Requests[N]["answer"]>;
  /** Hands over what came from the other side; anything that is no answer is left alone. */
  receive(message: ToPanel): void;
}

const LIMIT = 30_000;

export function makeAsker(post: (message: ToHost) => void): Asker {
  const waiting = new Map<number, { resolve: (value: never) => void; reject: (error: RequestError) => void }>();
  let last = 0;
  return {
    ask(name, ask, { signal, limit = LIMIT } = {}) {
      const id = ++last;
      return new Promise((resolve, reject) => {
        const stop = (code: string, message: string) => {
          if (!waiting.has(id)) return;
          post({ kind: "cancel", id });
          settle.reject(new RequestError({ code, message }));
        };
        const abort = (): void => stop("cancelled", "The request was cancelled.");
        const timer = setTimeout(
          () => stop("timed-out", `No answer came within ${Math.round(limit / 1000)} s. Try again.`),
          limit,
        );
        const done = (): void => {
          waiting.delete(id);
          clearTimeout(timer);
          signal?.removeEventListener("abort", abort);
        };
        const settle = {
          resolve: (value: never) => (done(), resolve(value)),
          reject: (error: RequestError) => (done(), reject(error)),
        };
        waiting.set(id, settle);
        if (signal?.aborted)
          return settle.reject(new RequestError({ code: "cancelled", message: "The request was cancelled." }));
        signal?.addEventListener("abort", abort);
        post({ kind: "ask", id, name, ask });
      });
    },
    receive(message) {
      if (!isMessage(message)) return;
      if (message.kind === "answer") waiting.get(message.id)?.resolve(message.value as never);
      else if (message.kind === "failed") waiting.get(message.id)?.reject(new RequestError(message.failure));
    },
  };
}

export type Handlers = {
  [N in RequestName]: (ask: Requests[N]["ask"], signal: AbortSignal) => Promise<Requests[N]["answer"]>;
};

/** Answers requests. Every one gets exactly one answer or failure, whatever its handler does. */
export function makeAnswerer(
  handlers: Handlers,
  post: (message: ToPanel) => void,
): { receive(message: ToHost): void; close(): void } {
  const running = new Map<number, AbortController>();
  return {
    receive(message) {
      if (!isMessage(message)) return;
      if (message.kind === "cancel") return running.get(message.id)?.abort();
      if (message.kind !== "ask" || typeof message.id !== "number") return;
      const { id, name } = message;
      const controller = new AbortController();
      running.set(id, controller);
      const handle = Object.hasOwn(handlers, name) ? handlers[name] : undefined;
      const work = async (): Promise<unknown> => {
        if (!handle)
          throw new RequestError({ code: "unknown-request", message: `There is no request called "${String(name)}".` });
        return await (handle as (ask: unknown, signal: AbortSignal) => Promise<unknown>)(
          message.ask,
          controller.signal,
        );
      };
      void work().then(
        (value) => (running.delete(id), post({ kind: "answer", id, value })),
        (error: unknown) => (running.delete(id), post({ kind: "failed", id, failure: noteOf(error) })),
      );
    },
    close() {
      for (const controller of running.values()) controller.abort();
      running.clear();
    },
  };
}

/** The other side is another program, and anything may be posted. */
const isMessage = (message: unknown): boolean => typeof message === "object" && message !== null;

/** Any thrown value as a note that can cross; a `remedy` is added to the sentence. */
export function noteOf(error: unknown): FailureNote {
  if (!(error instanceof Error)) return { code: "failed", message: String(error) };
  const { code, remedy } = error as Error & { code?: unknown; remedy?: unknown };
  return {
    code: typeof code === "string" ? code : "failed",
    message: typeof remedy === "string" ? `${error.message} ${remedy}` : error.message,
  };
}

/** What the report of a survey asks of its host. */
export type ToSurveyHost =
  | { readonly kind: "ready" }
  /** Shows the place in the text: of a finding by its number in the report, else of a frame. */
  | { readonly kind: "jump"; readonly frame?: string; readonly finding?: number }
  | { readonly kind: "again" }
  | { readonly kind: "save" };

/** What the report is told. */
export type ToSurveyPage =
  | {
      readonly kind: "show";
      readonly title: string;
      /** HTML in which everything that came from files is text. */
      readonly body: string;
      /** Sentences above it, such as that scans have changed since. */
      readonly notices: readonly string[];
      /** Without a survey there is nothing to save. */
      readonly surveyed: boolean;
    }
  | { readonly kind: "at"; readonly frame: string };
