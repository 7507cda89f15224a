/** A survey as one page that needs nothing else: no network, no other file, no script. */
import { createHash } from "node:crypto";
import type { Box, Finding, ScanReading } from "../engine/survey/types.ts";
import { sharpestOf, halfResponse } from "../engine/survey/sharpness-map.ts";
import { starsOf } from "../engine/survey/fadgi.ts";
import { ppiOf } from "../engine/survey/findings/resolution.ts";
import { comparison } from "../engine/survey/words.ts";
import type { SurveyReport } from "./survey-roll.ts";

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

/** Text as HTML shows it, between tags and in attributes. */
export const escape = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");

/** The page; whatever comes from recipes and files is text in it, never markup. */
export function surveyPage(title: string, report: SurveyReport): string {
  const hash = createHash("sha256").update(STYLE).digest("base64");
  const policy = `default-src 'none'; img-src data:; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escape(`Survey: ${title}`)}</title>
<style>${STYLE}</style>
</head>
<body>
<h1>${escape(`Survey: ${title}`)}</h1>
${surveyBody(report)}
</body>
</html>
`;
}

/** How a place is named: as text, or by a button that leads to it. Both are HTML. */
export type NamePlace = (words: string, place: { readonly frame?: string; readonly finding?: number }) => string;

/** What the page says, below its title. */
export function surveyBody(report: SurveyReport, name: NamePlace = escape): string {
  const { findings, faults, roll } = report;
  const count = findings.length;
  return `<p>${roll.scans.length} scans, ${count === 0 ? "no findings" : count === 1 ? "one finding" : `${count} findings`}.</p>
${faults.map((f) => `<p class="error">${f.frame === undefined ? "" : `${name(`Frame ${f.frame}`, f)}: `}${escape(f.message)}</p>`).join("\n")}
${findings.map((f, i) => article(f, i, report, name)).join("\n")}
<h2>Readings</h2>
${readings(report, name)}`;
}

function article(finding: Finding, index: number, report: SurveyReport, name: NamePlace): string {
  const { code, severity, message, source, place, cause, cure } = finding;
  const view = place.scan === undefined ? undefined : report.views[place.scan];
  const figure = view ? figureOf(place.scan ?? "", view, place.area, finding, report) : "";
  const where = [place.frame && `frame ${place.frame}`, place.scan].filter(Boolean).join(", ");
  const frame = place.frame === undefined ? "" : ` data-frame="${escape(place.frame)}"`;
  return `<article${view ? "" : ' class="plain"'}${frame}>
${figure}
<div>
<h3><span class="mark ${severity}">${severity}</span> ${escape(message)}</h3>
<p class="small">${escape(code)}${where ? ` · ${name(where, { frame: place.frame, finding: index })}` : ""} · ${escape(comparison(finding))}</p>
<p>${escape(cause)}</p>
<p><strong>${escape(cure)}</strong></p>
<p class="small">Limit: ${escape(source)}.</p>
</div>
</article>`;
}

function figureOf(
  name: string,
  view: SurveyReport["views"][string],
  area: Box | undefined,
  { code, place }: Finding,
  report: SurveyReport,
): string {
  const { width, height, bytes } = view;
  const marks: string[] = [];
  const box = (b: Box, colour: string): string =>
    `<rect x="${(b[0] * width).toFixed(1)}" y="${(b[1] * height).toFixed(1)}" width="${Math.max(2, b[2] * width).toFixed(1)}" height="${Math.max(2, b[3] * height).toFixed(1)}" fill="none" stroke="${colour}" stroke-width="2"/>`;
  if (area) marks.push(box(area, "#ff4d2e"));
  const specks =
    code === "dust" && place.frame !== undefined
      ? (report.dust[place.frame] ?? [])
      : code === "dirt"
        ? report.dirt
        : [];
  for (const speck of specks) {
    const ring = `<circle cx="${(speck.x * width).toFixed(1)}" cy="${(speck.y * width).toFixed(1)}" r="${Math.max(5, speck.radius * width + 3).toFixed(1)}" fill="none"`;
    // Dark below yellow: one of the two is seen on film and on bare light.
    marks.push(`${ring} stroke="#222" stroke-width="2.6"/>${ring} stroke="#ffd000" stroke-width="1.2"/>`);
  }
  const source = `data:image/jpeg;base64,${Buffer.from(bytes).toString("base64")}`;
  return `<figure><svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${escape(`${name} with the place marked`)}"><image href="${source}" width="${width}" height="${height}"/>${marks.join("")}</svg><figcaption>${escape(name)}</figcaption></figure>`;
}

/** What the holder, which should be black, shows: flare. */
function holderCell({ mask, maskTooNarrow }: ScanReading): string {
  if (mask) return `${(100 * Math.max(...mask)).toFixed(2)} %`;
  return maskTooNarrow ? "too few pixels of it to tell" : "no holder in view";
}

/** One line a scan, whether anything was found or not. */
function readings({ roll, dust }: SurveyReport, name: NamePlace): string {
  const rows = roll.scans.map((scan) => {
    const sharp = sharpestOf(scan);
    const ppi = ppiOf(roll, scan);
    const cells = [
      scan.name,
      `${(100 * Math.max(...scan.brightest)).toFixed(0)} %`,
      sharp ? `${halfResponse(sharp.sigma).toFixed(0)} %` : "not told by this picture",
      ppi === undefined ? "" : `${ppi.toFixed(0)} (${starsOf("resolution", ppi)}★)`,
      holderCell(scan),
      String((scan.frame === undefined ? undefined : dust[scan.frame]?.length) ?? 0),
    ];
    const frame = scan.frame === undefined ? "" : name(scan.frame, scan);
    return `<tr><td>${frame}</td>${cells.map((c) => `<td>${escape(c)}</td>`).join("")}</tr>`;
  });
  const { blank } = roll;
  const light = blank
    ? `<p class="small">Bare light (${escape(blank.name)}): falls off by ${blank.unevenness.toFixed(1)} %, colour within ${blank.colourSpan.toFixed(1)} %, bands ±${blank.banding.toFixed(2)} %, ${blank.dirt.length} spots of dirt.</p>`
    : "";
  const heads = ["Frame", "Scan", "Clearest film", "MTF50 by grain", "ppi (FADGI)", "Holder", "Dust"];
  return `${light}<div class="wide"><table><thead><tr>${heads.map((h) => `<th>${h}</th>`).join("")}</tr></thead><tbody>${rows.join("\n")}</tbody></table></div>`;
}
