import type { ProblemCode } from "../../../../extension/recipe/problems.ts";

/** A recipe with one kind of fault, and the text that is to be underlined. Files of ./recipes.ts lie around it. */
export interface Specimen {
  readonly text: string;
  readonly at: string;
  readonly name?: string;
  readonly others?: Readonly<Record<string, string>>;
}

const frame = (lines: string): string => `version: 1\nscans: scans\nframes:\n  "01":\n${lines}`;
const matrix = (rows: string): string => `version: 1\nnegative:\n  ${rows}\n`;
const many = (depth: number): string => `version: 1\nnote: ${"[".repeat(depth)}${"]".repeat(depth)}\n`;

/** One specimen of each code. */
export const specimens: Readonly<Record<ProblemCode, Specimen>> = {
  "too-large": { text: "", at: "" },
  "not-utf8": { text: "version: 1\ntitle: Caf\udce9\n", at: "\udce9" },
  "conflict-markers": {
    text: "version: 1\n<<<<<<< HEAD\nfilm: slide\n=======\nfilm: x\n>>>>>>> side\n",
    at: "<<<<<<< HEAD",
  },
  "yaml-syntax": { text: "version: 1\ntitle: @home\n", at: "@" },
  "tab-indent": { text: "version: 1\npositive:\n\ttoe: 0.3\n", at: "\t" },
  "several-documents": { text: "version: 1\n---\nversion: 1\n", at: "---" },
  "not-a-mapping": { text: "", at: "" },
  "too-deep": { text: many(300), at: "[" },
  "too-many-aliases": {
    text: `version: 1\nnote:\n  - &a [1,1,1,1,1,1,1,1,1]\n${["b", "c", "d", "e", "f", "g"].map((name, i) => `  - &${name} [${Array(9).fill(`*${"abcdef"[i]}`).join(",")}]\n`).join("")}`,
    at: "*a",
  },
  "bad-alias": { text: "version: 1\ntitle: *none\n", at: "*none" },
  "unknown-tag": { text: "version: 1\ntitle: !odd x\n", at: "!odd" },
  "duplicate-key": { text: "version: 1\ntitle: a\ntitle: b\n", at: "title" },
  "forbidden-key": { text: "version: 1\n__proto__: 1\n", at: "__proto__" },
  "bad-key": { text: "version: 1\nfingerprints:\n  12: { size: 1 }\n", at: "12" },
  "not-finite": { text: "version: 1\npositive:\n  toe: .inf\n", at: ".inf" },
  "unsupported-version": { text: "version: 3\n", at: "3" },
  "unknown-key": { text: "version: 1\ntitel: x\n", at: "titel" },
  "missing-key": { text: "title: x\n", at: "title" },
  "empty-value": { text: "version: 1\nfilm:\n", at: "film" },
  "wrong-type": { text: "version: 1\npositive:\n  toe: '0.3'\n", at: "'0.3'" },
  "wrong-length": { text: matrix("gamma: [0.5, 0.6]"), at: "[0.5, 0.6]" },
  "wrong-form": { text: "version: 1\nexposed: { date: May }\n", at: "May" },
  "out-of-range": { text: "version: 1\npositive:\n  toe: 3\n", at: "3" },
  "not-one-of": { text: "version: 1\nfilm: slde\n", at: "slde" },
  "bad-frame-id": { text: 'version: 1\nframes:\n  "1a":\n    skip: true\n', at: '"1a"' },
  "unquoted-frame-id": { text: "version: 1\nframes:\n  01:\n    skip: true\n", at: "01" },
  "impossible-date": { text: "version: 1\nexposed: { date: 2026-02-30 }\n", at: "2026-02-30" },
  "unsafe-path": { text: "version: 1\nstock: ../../etc/x.stock.yaml\n", at: "../../etc/x.stock.yaml" },
  "gamma-and-curve": { text: matrix("gamma: 0.6\n  curve: { logH: [0, 1], density: [0, 1] }"), at: "gamma" },
  "curve-incomplete": { text: matrix("curve: { logH: [0, 1], red: [0, 1] }"), at: "curve" },
  "curve-lengths": { text: matrix("curve: { logH: [0, 1], density: [0, 1, 2] }"), at: "[0, 1, 2]" },
  "not-ascending": { text: "version: 1\npositive:\n  curve: [[0, 0], [75, 78], [25, 23]]\n", at: "25" },
  "not-monotone": { text: matrix("curve: { logH: [0, 1, 2], density: [0, 1, 0.5] }"), at: "0.5" },
  "colour-rows": { text: matrix("colour: [[1.2, 0, 0], [0, 1, 0], [0, 0, 1]]"), at: "[1.2, 0, 0]" },
  "singular-matrix": {
    text: matrix("unmix: [[1, 0, 0], [1, 0, 0], [0, 0, 1]]"),
    at: "[[1, 0, 0], [1, 0, 0], [0, 0, 1]]",
  },
  "base-implausible": {
    text: "version: 1\nscans: scans\nlight:\n  blank: LIGHT.dng\nnegative:\n  base: { density: [0.7, 0.6, 0.3] }\n",
    at: "[0.7, 0.6, 0.3]",
  },
  "area-outside": { text: frame("    scan: H0001.dng\n    area: { left: 0.5, width: 0.75 }\n"), at: "0.75" },
  "scan-and-scans": { text: frame("    scan: H0001.dng\n    scans: [H0002.dng, H0003.dng]\n"), at: "scan" },
  "one-exposure": { text: frame("    exposures: [H0001.dng]\n"), at: "exposures" },
  "blank-of-channels": {
    text: `version: 1\nlight: { blank: LIGHT.dng }\nframes:\n  "01":\n    channels: { red: H0001.dng, green: H0002.dng, blue: H0003.dng }\n`,
    at: "channels",
  },
  "no-scan": { text: frame("    turn: 90\n"), at: '"01"' },
  "join-length": { text: frame("    scans: [H0001.dng, H0002.dng]\n    join: [[0, 0, 0]]\n"), at: "[[0, 0, 0]]" },
  "scan-used-twice": { text: frame('    scan: H0001.dng\n  "02":\n    scan: H0001.dng\n'), at: "H0001.dng" },
  "duplicate-output": {
    text: "version: 1\noutput:\n  - { name: web, type: jpeg }\n  - { name: Web, type: png }\n",
    at: "Web",
  },
  "same-file-name": {
    text: 'version: 1\noutput:\n  - { name: a, type: png, file: "{roll}" }\nframes:\n  "01": { scan: H0001.dng }\n  "02": { scan: H0002.dng }\n',
    at: '"{roll}"',
  },
  "depth-impossible": { text: "version: 1\noutput:\n  - { name: web, type: jpeg, depth: 16 }\n", at: "16" },
  "print-impossible": {
    text: "version: 1\noutput:\n  - { name: wall, type: png, print: { paper: A4 } }\n",
    at: "png",
  },
  "local-shape": { text: "version: 2\npositive:\n  local:\n    - { exposure: -0.8 }\n", at: "{ exposure: -0.8 }" },
  "polygon-crosses": {
    text: "version: 2\npositive:\n  local:\n    - { polygon: [[0, 0], [1, 1], [1, 0], [0, 1]], exposure: 1 }\n",
    at: "[[0, 0], [1, 1], [1, 0], [0, 1]]",
  },
  "duplicate-area": {
    text: "version: 2\npositive:\n  local:\n    - { id: a1, oval: [0.5, 0.5, 0.1, 0.1] }\n    - { id: 'a1', oval: [0.2, 0.5, 0.1, 0.1] }\n",
    at: "'a1'",
  },
  "local-outside": {
    text: "version: 2\npositive:\n  local:\n    - { oval: [1.8, 0.5, 0.1, 0.1], exposure: 1 }\n",
    at: "[1.8, 0.5, 0.1, 0.1]",
  },
  "without-effect": { text: "version: 1\noutput:\n  - { name: a, type: png, quality: 90 }\n", at: "quality" },
  "missing-stock": {
    text: "version: 1\nstock: stock/northlight-400.stock.yaml\n",
    at: "stock/northlight-400.stock.yaml",
  },
  "broken-stock": {
    text: "version: 1\nstock: bad.stock.yaml\n",
    at: "bad.stock.yaml",
    others: { "bad.stock.yaml": "version: 3\n" },
  },
  "not-a-stock": {
    text: "version: 1\nstock: other.roll.yaml\n",
    at: "other.roll.yaml",
    others: { "other.roll.yaml": "version: 1\n" },
  },
  "missing-profile": {
    text: "version: 1\noutput:\n  - { name: wall, type: tiff, print: { paper: A4, profile: profiles/mat.icc } }\n",
    at: "profiles/mat.icc",
    others: { "profiles/matte.icc": "" },
  },
  "missing-scan": { text: frame("    scan: H0001.DNG\n"), at: "H0001.DNG" },
  "scan-not-fetched": {
    text: frame("    scan: H0007.dng\n"),
    at: "H0007.dng",
    others: { "scans/H0007.dng": "version https://git-lfs.github.com/spec/v1\noid sha256:00\nsize 1\n" },
  },
};
