/** A verdict in words and as data: what the terminal, other programs and the panel show. */
import { english, formatMessage, type Message, type Translate } from "../../engine/messages.ts";
import type { Box } from "../../engine/survey/types.ts";
import {
  type Change,
  FOCUS_PLACES,
  type Focus,
  type FocusPlace,
  bestFocus,
  focusChange,
  focusOf,
} from "../../engine/verdict/focus.ts";
import type { VerdictWord } from "../../engine/verdict/types.ts";
import type { Judged, Session, SessionScan, Tally } from "./session.ts";

export interface ReasonReport {
  readonly code: string;
  readonly verdict: VerdictWord;
  readonly message: string;
  readonly remedy: string;
  /** left, top, width, height in fractions of the scan. */
  readonly areas: readonly Box[];
}

export interface FocusReport {
  /** MTF50 in percent of half the sampling frequency. */
  readonly response: number;
  /** Blur, one sigma, in pixels of the full scan. */
  readonly blur: number;
  /** Against the scan before and the sharpest so far; absent where there is none. */
  readonly change?: Change;
  readonly best?: number;
}

export interface ScanReport {
  readonly scan: string;
  readonly verdict: VerdictWord;
  readonly kind: SessionScan["kind"];
  readonly frame?: string;
  /** What becomes of the scan, as a sentence; empty for a new frame. */
  readonly role: string;
  readonly reasons: readonly ReasonReport[];
  readonly focus: Partial<Readonly<Record<FocusPlace, FocusReport>>>;
}

/** @param session as it was before the scan, or with it */
export function reportOf({ scan, role }: Judged, session: Session, t: Translate = english): ScanReport {
  const words = (message: Message): string => formatMessage(message, t);
  return {
    scan: scan.name,
    verdict: scan.verdict.word,
    kind: scan.kind,
    ...(scan.frame === undefined ? {} : { frame: scan.frame }),
    role: roleOf({ scan, role }, session, t),
    reasons: scan.verdict.reasons.map(({ code, word, message, remedy, areas }) => ({
      code,
      verdict: word,
      message: words(message),
      remedy: words(remedy),
      areas,
    })),
    focus: focusReport(scan, session),
  };
}

function roleOf({ scan, role }: Judged, session: Session, t: Translate): string {
  if (scan.kind === "blank") return t("The bare light: it is the roll's blank.");
  if (scan.kind === "leader" && session.every(({ picture, name }) => !picture && name === scan.name))
    return t("The scan is even: it shows the bare light or unexposed film. The next scans decide which.");
  if (scan.kind === "leader") return t("Unexposed film: the base is read from it.");
  if (role.role === "retake")
    return role.kept === "new"
      ? t("Replaces {0}, which stays on disk.", role.earlier)
      : t("{0} is better and stays in the roll; both files stay on disk.", role.earlier);
  if (role.role === "none" && scan.kind === "picture") return t("Test shot: it adds no frame.");
  return "";
}

function focusReport(scan: SessionScan, session: Session): ScanReport["focus"] {
  if (!scan.picture) return {};
  const now = focusOf(scan.picture.reading);
  const others = session.filter((one) => one.picture && one.name !== scan.name);
  const at = session.findIndex((one) => one.name === scan.name);
  const earlier = at < 0 ? others : others.filter((one) => session.indexOf(one) < at);
  const focuses = earlier.flatMap(({ picture }): Focus[] => (picture ? [focusOf(picture.reading)] : []));
  const [last, best] = [focuses.at(-1), bestFocus(focuses)];
  return Object.fromEntries(
    FOCUS_PLACES.flatMap((place) => {
      const [own, before, top] = [now[place], last?.[place], best[place]];
      if (!own) return [];
      const report: FocusReport = {
        response: own.response,
        blur: own.sigma,
        ...(before ? { change: focusChange(own, before) } : {}),
        ...(top ? { best: Math.max(top.response, own.response) } : {}),
      };
      return [[place, report]];
    }),
  );
}

/** One line a scan, the verdict first. */
export function lineOf({ scan, verdict, frame, role, reasons, kind }: ScanReport): string {
  const what = frame === undefined ? (kind === "picture" || kind === "unreadable" ? "" : kind) : `frame ${frame}`;
  const [first, ...others] = reasons;
  const why = first ? ` ${first.message} ${first.remedy}` : "";
  const more = others.length > 0 ? ` Also: ${others.map(({ message }) => message).join(" ")}` : "";
  return `${verdict.padEnd(5)}  ${what.padEnd(9)} ${scan}${why || role ? ":" : ""}${why}${more}${role ? ` ${role}` : ""}`;
}

/** What is still missing or to be done, a sentence each. */
export function openPoints({ open, blank, leader, frames }: Tally, t: Translate = english): string[] {
  return [
    ...(open.length === 0 ? [] : [t("To be photographed again: {0}.", open.join(", "))]),
    ...(blank || frames === 0
      ? []
      : [t("No blank yet: take the film out and photograph the bare light before you change anything.")]),
    ...(leader || frames === 0
      ? []
      : [t("No leader yet: photograph a piece of unexposed, developed film for the base.")]),
  ];
}
