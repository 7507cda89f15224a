/** A small stock and a roll of it, for tests of the language features. */
export const stock = `version: 1
title: Northlight 400
film: colour-negative
iso: 400
negative:
  gamma: [0.53, 0.56, 0.63]
positive:
  contrast: 1.5
  toe: 0.25
`;

export const roll = `version: 1
title: Harbour
stock: stocks/northlight-400.stock.yaml
scans: scans
light:
  blank: LIGHT.dng
positive:
  filtration: { magenta: 4, yellow: 7 }
  toe: 0.3
frames:
  "01":
    scan: H0001.dng
    positive: { exposure: 0.33 }
  "02":
    scan: H0002.dng
  "03":
    scan: H0003.dng
    positive:
      contrast: 1.7
`;

export const files: Readonly<Record<string, string>> = {
  "stocks/northlight-400.stock.yaml": stock,
  "scans/LIGHT.dng": "",
  "scans/H0001.dng": "",
  "scans/H0002.dng": "",
  "scans/H0003.dng": "",
  "scans/H0004.dng": "",
};

/** A roll of so many frames, with a scan each. */
export function longRoll(frames: number): string {
  const lines = ["version: 1", "title: Long", "stock: stocks/northlight-400.stock.yaml", "scans: scans", "frames:"];
  for (let i = 0; i < frames; i++) {
    const id = `${String((i % 999) + 1).padStart(2, "0")}${i < 999 ? "" : String.fromCharCode(64 + Math.floor(i / 999))}`;
    lines.push(
      `  "${id}":`,
      `    scan: H${String(i + 1).padStart(4, "0")}.dng`,
      "    area: { left: 0.052, top: 0.061, width: 0.894, height: 0.88, tilt: -0.4 }",
      `    positive: { exposure: ${((i % 7) / 10).toFixed(1)}, filtration: { magenta: ${i % 5} } }`,
    );
  }
  return `${lines.join("\n")}\n`;
}
