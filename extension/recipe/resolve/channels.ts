/** Scans under three narrow-band lights: which channel each gives, and what else of a roll is stated by channel. */
import type { Rgb } from "../../engine/types.ts";

/** Channels in the order of a frame's scans: green sets the axes. */
export const CHANNEL_ORDER = ["green", "red", "blue"] as const;

/** Number of each channel of CHANNEL_ORDER in a pixel. */
export const CHANNEL_NUMBERS: Rgb = [1, 0, 2];

/** Names by channel, complete; undefined for anything else. */
export function byChannel(value: unknown): readonly [green: string, red: string, blue: string] | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  const names = CHANNEL_ORDER.map((channel) => (value as Readonly<Record<string, unknown>>)[channel]);
  return names.every((name) => typeof name === "string") ? (names as [string, string, string]) : undefined;
}

interface Blanks<T> {
  readonly blank?: T;
  readonly blanks?: readonly T[];
}

interface References<T> {
  readonly light: Blanks<T>;
  readonly base: { readonly read?: { readonly scan: T } };
}

/** Scans of the bare light: none, one, or three in the order of channels. */
export const blanksOf = <T>({ blank, blanks }: Blanks<T>): readonly T[] => blanks ?? (blank ? [blank] : []);

/** Scans that a frame's exposure is compared with: its blanks, or without any the scan that its base was read from. */
export function referencesOf<T>({ light, base }: References<T>): readonly T[] {
  return light.blank ? blanksOf(light) : base.read ? [base.read.scan] : [];
}
