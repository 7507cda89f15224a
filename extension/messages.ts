/**
 * What panels and the extension host send to one another, over the channel of rpc.ts. Everything is plain data that
 * survives `postMessage`. Events sent to a hidden panel are lost, so a page requests the state when it is ready.
 */
import type { StatedArea } from "./engine/local/stated.ts";
import type { Turn } from "./engine/image/geometry.ts";
import type { Spot } from "./engine/image/spot.ts";
import type { RecipePath, ValueEdit } from "./recipe/path.ts";
import type { Area, FrameLook, OutputSpace, Rgb } from "./engine/types.ts";

export type { RecipePath, ValueEdit };

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
  readonly title?: string;
  readonly note?: string;
  readonly choice?: "keep" | "reject";
  /** 1 … 5. */
  readonly rank?: number;
  /** Values that the frame states itself, as paths joined by dots, such as "positive.exposure". */
  readonly own: readonly string[];
  /** Whether its crop is the one that was measured on the scan. */
  readonly measured: boolean;
  readonly look: FrameLook;
  readonly area: Area;
  readonly turn: Turn;
  readonly mirror: boolean;
  /** On the film, and on the sensor or lens. */
  readonly spots: readonly Spot[];
  readonly lightSpots: readonly Spot[];
  /** Areas of local exposure as the text states them, of the frame or of what it inherits; absent where there are none. */
  readonly areas?: readonly StatedArea[];
  /** Whether roll or stock state areas, so that a frame without any has to say so. */
  readonly inheritsAreas?: true;
  /** Colour space of the frame's first output. */
  readonly space: OutputSpace;
  /** Colour spaces of all its outputs. */
  readonly spaces: readonly OutputSpace[];
  /** Changes when another proxy has to be fetched: scans, light, spots. */
  readonly source: string;
}

/** An output that is printed by a printer's profile. */
export interface PrintEntry {
  /** Name of the output. */
  readonly output: string;
  /** The profile, as the recipe names it. */
  readonly profile: string;
  readonly intent: string;
  /** Changes when another proof has to be fetched. */
  readonly key: string;
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
  /** Outputs that can be proofed. */
  readonly prints: readonly PrintEntry[];
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

/** Requests of the preview panel to its host. */
export interface PreviewRequests {
  /** The panel is there: it wants the state. `frame` is the one that it showed before a reload. */
  ready: { request: { frame?: string }; reply: { roll: RollState; settings: PanelSettings; frame?: string } };
  /** Values of a frame on every level, by control; see `ControlKey` in the panel. */
  cascades: {
    request: { frame: string; paths: readonly RecipePath[] };
    reply: { version: number; cascades: readonly Cascade[] };
  };
  thumbnail: { request: { frame: string }; reply: Proxy };
  picture: { request: { frame: string }; reply: Proxy };
  /** The picture before anything is healed: the specks are in it. */
  unhealed: { request: { frame: string }; reply: Proxy };
  /** A part of the scan at its full resolution; the rectangle is in fractions of the scan. */
  detail: { request: { frame: string; part: Proxy["part"] }; reply: Proxy };
  /** What an output looks like on its paper: a table as in engine/colour/proof-table.ts, 16 bits little-endian. */
  proof: { request: { output: string; screen: "srgb" | "p3" }; reply: { table: Uint8Array } };
  base: {
    request: { frame: string; area: readonly [number, number, number, number] };
    /** `area` is that of the scan that was read: one of several, where the frame is joined. */
    reply: { density: Rgb; scatter: Rgb; scan: string; area: readonly [number, number, number, number] };
  };
  /** One gesture: one change of the text, one step of undo. */
  edit: { request: { label: string; edits: readonly ValueEdit[] }; reply: { version: number } };
  undo: { request: { redo: boolean }; reply: { version: number } };
  /** Writes the frame's outputs; the host asks where to. */
  export: { request: { frame: string }; reply: { files: readonly string[] } };
  /** Copies the frame's own values to others; the host asks which. */
  copy: { request: { frame: string }; reply: { frames: readonly string[] } };
  /** Shows a value, or a frame, in the text. */
  reveal: {
    request: { frame?: string; path?: RecipePath; level?: "frame" | "roll" | "stock" };
    reply: Record<never, never>;
  };
  /** Spots that the last survey proposes for a frame and that the recipe does not heal yet. */
  proposals: {
    request: { frame: string };
    reply: {
      /** False where no survey of this frame's scan, as it is now, is kept. */
      surveyed: boolean;
      /** On the film of this frame, and on sensor or lens for every frame. */
      film: readonly Spot[];
      light: readonly Spot[];
      /** Those that were skipped; they are not among the others. */
      dismissed: { readonly film: readonly Spot[]; readonly light: readonly Spot[] };
    };
  };
  /** Passes a proposed spot over for good, or proposes it again. The recipe says nothing of it. */
  dismiss: {
    request: { frame: string; kind: "film" | "light"; spot: Spot; dismissed: boolean };
    reply: Record<never, never>;
  };
  /** Surveys the roll's scans; answered when it is done, or was stopped. */
  survey: { request: Record<never, never>; reply: Record<never, never> };
  /** The panel moved to a frame: the text cursor follows. */
  select: { request: { frame: string }; reply: Record<never, never> };
}

/** How a frame looks in another revision of the recipe. */
export type EarlierFrame = Pick<FrameEntry, "id" | "look" | "area" | "turn" | "mirror">;

/** Requests of the roll sheet to its host: those of the preview, and what concerns several frames at once. */
export interface SheetRequests extends PreviewRequests {
  /** A frame of medium size: finer than its thumbnail, coarser than its picture. */
  tile: { request: { frame: string }; reply: Proxy };
  /** How many findings the last survey has of each frame; those without one are left out. */
  findings: {
    request: Record<never, never>;
    reply: { surveyed: boolean; counts: Readonly<Record<string, number>> };
  };
  /** Puts a question before something is lost. */
  confirm: { request: { message: string; accept: string }; reply: { accepted: boolean } };
  exportFrames: { request: { frames: readonly string[] }; reply: { files: readonly string[] } };
  /** Asks which groups of a frame's own values are copied; the host keeps them for every roll. */
  copyValues: { request: { frame: string }; reply: { copied: boolean } };
  /** Writes the copied values into frames: one edit. */
  pasteValues: { request: { frames: readonly string[] }; reply: { pasted: boolean } };
  /** Asks for a revision; without a label nobody chose one. */
  earlier: { request: Record<never, never>; reply: { label?: string; frames: readonly EarlierFrame[] } };
  openPreview: { request: { frame: string }; reply: Record<never, never> };
}
export type SheetRequestName = keyof SheetRequests;

/** What the preview's host reports unasked. */
export interface PreviewEvents {
  readonly roll: RollState;
  readonly settings: PanelSettings;
  /** The text cursor moved to a frame. */
  readonly show: { readonly frame: string };
  /** There is a new survey of the roll, or the scans of the last one have changed. */
  readonly surveyed: null;
}

/** What every page reports to its host: how it looks at its subject, for a reload of the window. */
export interface PageEvents {
  readonly keep: unknown;
}

/** What the report of a survey wants of its host. */
export interface SurveyPageEvents {
  readonly ready: null;
  /** Shows the place in the text: of a finding by its number in the report, else of a frame. */
  readonly jump: { readonly frame?: string; readonly finding?: number };
  readonly again: null;
  readonly save: null;
}

/** What the host of a survey's report sends to its page. */
export interface SurveyEvents {
  readonly show: {
    readonly title: string;
    /** HTML in which everything that came from files is text. */
    readonly body: string;
    /** Sentences above it, such as that scans have changed since. */
    readonly notices: readonly string[];
    /** Without a survey there is nothing to save. */
    readonly surveyed: boolean;
  };
  readonly goTo: { readonly frame: string };
}

/** A scan in the strip of the copy stand. */
export interface StandEntry {
  readonly scan: string;
  readonly kind: "blank" | "leader" | "picture" | "unreadable";
  readonly verdict: "good" | "look" | "again";
  readonly frame?: string;
  /** Whether the roll uses it: a scan that was taken again, and a test shot, are not. */
  readonly used: boolean;
}

/** Sharpness of the grain at one place of a scan. */
export interface StandFocus {
  /** MTF50 in percent of half the sampling frequency. */
  readonly response: number;
  readonly change?: "better" | "same" | "worse";
  /** The sharpest so far, this scan included. */
  readonly best?: number;
}
export type StandPlace = "middle" | "topLeft" | "topRight" | "bottomLeft" | "bottomRight";

/** Everything about one scan, in the reader's language. */
export interface StandScan extends StandEntry {
  /** What becomes of it in the roll, as a sentence; empty for a new frame. */
  readonly role: string;
  readonly reasons: readonly {
    readonly code: string;
    readonly verdict: StandEntry["verdict"];
    readonly message: string;
    readonly remedy: string;
    readonly areas: readonly (readonly [left: number, top: number, width: number, height: number])[];
  }[];
  readonly focus: Partial<Readonly<Record<StandPlace, StandFocus>>>;
  /** Where the picture lies in the scan, and how the positive is turned. */
  readonly area?: Area;
  readonly turn: Turn;
  readonly mirror: boolean;
}

/** The state of a session at the copy stand. */
export interface StandState {
  readonly folder: string;
  /** Name of the recipe that grows; absent where none is written. */
  readonly recipe?: string;
  readonly present: boolean;
  readonly polling: boolean;
  readonly testing: boolean;
  readonly entries: readonly StandEntry[];
  readonly tally: { readonly good: number; readonly look: number; readonly again: number; readonly frames: number };
  /** Sentences: what is missing or to be done, what failed. */
  readonly points: readonly string[];
  /** Response of the focus's places for the last scans, the oldest first. */
  readonly trend: readonly Partial<Readonly<Record<StandPlace, number>>>[];
}

/** What the page of the copy stand asks of its host. */
export interface StandRequests {
  scan: { request: { readonly scan: string }; reply: StandScan };
  /** JPEG files; absent while a scan is being measured, and for scans that show no picture. */
  positive: { request: { readonly scan: string }; reply: { readonly bytes?: Uint8Array } };
  crops: {
    request: { readonly scan: string };
    reply: { readonly own?: Uint8Array; readonly best?: { readonly scan: string; readonly bytes: Uint8Array } };
  };
}

export interface StandPageEvents {
  readonly ready: null;
  readonly testing: { readonly on: boolean };
  /** Shows the frame in the recipe. */
  readonly reveal: { readonly frame?: string };
}

export interface StandEvents {
  readonly state: StandState;
  /** A scan is complete and is being measured. */
  readonly arrived: { readonly scan: string };
  readonly positive: { readonly scan: string };
  readonly verdict: { readonly scan: string; readonly verdict: StandEntry["verdict"] };
}
