/** A survey as one page that needs nothing else: no network, no other file, no script. */
import { isLine } from "../../engine/image/spot.ts";
import type { Severity } from "../../engine/types.ts";
import { english, formatMessage, type Translate } from "../../engine/messages.ts";
import type { Box, Finding, ScanReading } from "../../engine/survey/types.ts";
import { responseOf } from "../../engine/survey/sharpness/sharpness-map.ts";
import { starsOf } from "../../engine/survey/fadgi.ts";
import { type Scale, scaleOf } from "../../engine/survey/scale.ts";
import { comparison } from "../../engine/survey/format-measurement.ts";
import type { SurveyReport } from "./survey-roll.ts";
import { escapeMarkup } from "../../recipe/plain-text.ts";
import { htmlPage, sourceHash } from "../files/html-page.ts";

const STYLE = `
:root { color-scheme: light dark; font: 15px/1.5 system-ui, sans-serif; }
body { max-width: 62rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.6rem; } h2 { font-size: 1.2rem; margin-top: 2.2rem; }
article { display: grid; grid-template-columns: minmax(12rem, 18rem) 1fr; gap: 1.2rem; padding: 1rem 0; border-top: 1px solid #8886; }
article.plain { grid-template-columns: 1fr; }
figure { margin: 0; } svg { width: 100%; height: auto; display: block; background: #222; }
figcaption, .small { font-size: 0.85rem; opacity: 0.8; }
h3 { margin: 0; font-size: 1.05rem; } p { margin: 0.35rem 0; }
.mark { font-weight: 600; } .error { color: #c22; } .warning { color: #a60; } .info { color: #27a; }
table { border-collapse: collapse; width: 100%; font-size: 0.9rem; } td, th { text-align: left; padding: 0.25rem 0.6rem 0.25rem 0; border-bottom: 1px solid #8884; }
td { font-variant-numeric: tabular-nums; }
@media (prefers-color-scheme: dark) { .error { color: #f77; } .warning { color: #fb5; } .info { color: #7bf; } }
.wide { overflow-x: auto; }
@media (max-width: 40rem) { article { grid-template-columns: 1fr; } }
`;

/**
 * The page; whatever comes from recipes and files is text in it, never markup.
 * @param language that `t` translates into, as HTML names it
 */
export function surveyPage(title: string, report: SurveyReport, t: Translate = english, language = "en"): string {
  const heading = t("Survey: {0}", title);
  return htmlPage({
    language,
    title: heading,
    directives: ["img-src data:", `style-src ${sourceHash(STYLE)}`],
    head: `<style>${STYLE}</style>`,
    body: `<h1>${escapeMarkup(heading)}</h1>
${surveyBody(report, { t })}`,
  });
}

/** How a place is named: as text, or by a button that leads to it. Both are HTML. */
export type NamePlace = (words: string, place: { readonly frame?: string; readonly finding?: number }) => string;

/** How a page is worded. */
export interface PageText {
  /** Names places; as text where not given. */
  readonly name?: NamePlace;
  /** English where not given. Why a scan could not be surveyed is said as the reader of scans says it. */
  readonly t?: Translate;
}

/** What the page says, below its title. */
export function surveyBody(report: SurveyReport, { name = escapeMarkup, t = english }: PageText = {}): string {
  const { findings, failures, roll } = report;
  const words = { name, t };
  const frame = (id: string): string => t("Frame {0}", id);
  return `<p>${escapeMarkup(countOf(roll.scans.length, findings.length, t))}</p>
${failures.map((f) => `<p class="error">${f.frame === undefined ? "" : `${name(frame(f.frame), f)}: `}${escapeMarkup(f.message)}</p>`).join("\n")}
${findings.map((f, i) => article(f, i, report, words)).join("\n")}
<h2>${escapeMarkup(t("Readings"))}</h2>
${readings(report, words)}`;
}

function countOf(scans: number, findings: number, t: Translate): string {
  if (findings === 0) return t("{0} scans, no findings.", scans);
  return findings === 1 ? t("{0} scans, one finding.", scans) : t("{0} scans, {1} findings.", scans, findings);
}

const severityText: Readonly<Record<Severity, (t: Translate) => string>> = {
  error: (t) => t("error"),
  warning: (t) => t("warning"),
  info: (t) => t("info"),
};

function article(finding: Finding, index: number, report: SurveyReport, { name, t }: Required<PageText>): string {
  const { code, severity, source, place, cause, remedy } = finding;
  const message = formatMessage(finding.translatable, t);
  const view = place.scan === undefined ? undefined : report.views[place.scan];
  const figure = view ? figureOf(place.scan ?? "", view, finding, report, t) : "";
  const where = [place.frame && t("frame {0}", place.frame), place.scan].filter(Boolean).join(", ");
  const frame = place.frame === undefined ? "" : ` data-frame="${escapeMarkup(place.frame)}"`;
  return `<article${view ? "" : ' class="plain"'}${frame}>
${figure}
<div>
<h3><span class="mark ${severity}">${escapeMarkup(severityText[severity](t))}</span> ${escapeMarkup(message)}</h3>
<p class="small">${escapeMarkup(code)}${where ? ` · ${name(where, { frame: place.frame, finding: index })}` : ""} · ${escapeMarkup(comparison(finding, t))}</p>
<p>${escapeMarkup(t(cause))}</p>
<p><strong>${escapeMarkup(t(remedy))}</strong></p>
<p class="small">${escapeMarkup(t("Limit: {0}.", t(source)))}</p>
</div>
</article>`;
}

function figureOf(
  name: string,
  view: SurveyReport["views"][string],
  { code, place }: Finding,
  report: SurveyReport,
  t: Translate,
): string {
  const { width, height, bytes } = view;
  const marks: string[] = [];
  const box = (b: Box, colour: string): string =>
    `<rect x="${(b[0] * width).toFixed(1)}" y="${(b[1] * height).toFixed(1)}" width="${Math.max(2, b[2] * width).toFixed(1)}" height="${Math.max(2, b[3] * height).toFixed(1)}" fill="none" stroke="${colour}" stroke-width="2"/>`;
  if (place.area) marks.push(box(place.area, "#ff4d2e"));
  const specks =
    code === "dust" && place.frame !== undefined
      ? (report.dust[place.frame] ?? [])
      : code === "sensor-dust"
        ? report.sensorDust
        : [];
  for (const speck of specks) {
    const line = speck.spots.find(isLine);
    const ring = line
      ? `<polyline points="${line.line.map(([x, y]) => `${(x * width).toFixed(1)},${(y * width).toFixed(1)}`).join(" ")}" fill="none"`
      : `<circle cx="${(speck.x * width).toFixed(1)}" cy="${(speck.y * width).toFixed(1)}" r="${Math.max(5, speck.radius * width + 3).toFixed(1)}" fill="none"`;
    // Dark below yellow: one of the two is seen on film and on bare light.
    marks.push(`${ring} stroke="#222" stroke-width="2.6"/>${ring} stroke="#ffd000" stroke-width="1.2"/>`);
  }
  const source = `data:image/jpeg;base64,${Buffer.from(bytes).toString("base64")}`;
  return `<figure><svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeMarkup(t("{0} with the place marked", name))}"><image href="${source}" width="${width}" height="${height}"/>${marks.join("")}</svg><figcaption>${escapeMarkup(name)}</figcaption></figure>`;
}

/** What the holder, which should be black, shows, or else the specks tell: flare. */
function holderCell({ mask, maskTooNarrow, flareFromSpecks }: ScanReading, t: Translate): string {
  if (mask) return `${(100 * Math.max(...mask)).toFixed(2)} %`;
  if (flareFromSpecks !== undefined) return t("{0} %, measured on specks", (100 * flareFromSpecks).toFixed(2));
  return maskTooNarrow ? t("too few pixels of it to tell") : t("no holder in view");
}

/** The response by the grain, with its standard error. */
function sharpnessCell(scan: ScanReading, t: Translate): string {
  const { half, error } = responseOf(scan) ?? {};
  if (half === undefined || error === undefined) return t("not measurable in this picture");
  return `${half.toFixed(0)} ± ${Math.max(1, error).toFixed(0)} %`;
}

/** Samples per inch with their standard deviation, and what told them. */
function scaleCell(scale: Scale | undefined, t: Translate): string {
  if (!scale) return t("neither format nor perforations known");
  const ppi = 25.4 * scale.perMm;
  const figures = [ppi.toFixed(0), (ppi * scale.deviation).toFixed(0), starsOf("resolution", ppi)] as const;
  return scale.from === "perforations"
    ? t("{0} ± {1} by perforations ({2}★)", ...figures)
    : t("{0} ± {1} by the picture's nominal size ({2}★)", ...figures);
}

/** One line a scan, whether anything was found or not. */
function readings({ roll, dust }: SurveyReport, { name, t }: Required<PageText>): string {
  const rows = roll.scans.map((scan) => {
    const cells = [
      scan.name,
      `${(100 * Math.max(...scan.brightest)).toFixed(0)} %`,
      sharpnessCell(scan, t),
      scaleCell(scaleOf(roll, scan), t),
      holderCell(scan, t),
      String((scan.frame === undefined ? undefined : dust[scan.frame]?.length) ?? 0),
    ];
    const frame = scan.frame === undefined ? "" : name(scan.frame, scan);
    return `<tr><td>${frame}</td>${cells.map((c) => `<td>${escapeMarkup(c)}</td>`).join("")}</tr>`;
  });
  const { blank } = roll;
  const light = blank
    ? t(
        "Bare light ({0}): falls off by {1} %, colour within {2} %, bands ±{3} %, {4} spots of sensor dust.",
        blank.name,
        blank.unevenness.toFixed(1),
        blank.colourSpan.toFixed(1),
        blank.banding.toFixed(2),
        blank.sensorDust.length,
      )
    : undefined;
  const heads = [
    t("Frame"),
    t("Scan"),
    t("Clearest film"),
    t("MTF50 by grain"),
    t("ppi (FADGI)"),
    t("Holder"),
    t("Dust"),
  ];
  const above = light === undefined ? "" : `<p class="small">${escapeMarkup(light)}</p>`;
  return `${above}<div class="wide"><table><thead><tr>${heads.map((h) => `<th>${escapeMarkup(h)}</th>`).join("")}</tr></thead><tbody>${rows.join("\n")}</tbody></table></div>`;
}
