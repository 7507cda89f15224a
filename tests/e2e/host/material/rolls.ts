/** A folder of a roll and its stock, as the tests of the text features open it. Scans are empty files: no test decodes them. */
export const stockFile = "stocks/northlight-400.stock.yaml";
export const rollFile = "Rolls/Hafen früh.roll.yaml";

export const stock = `# Northlight 400, an invented colour negative film.
version: 1
title: Northlight 400
film: colour-negative
iso: 400
negative:
  gamma: [0.53, 0.56, 0.63]
positive:
  contrast: 1.5
  shoulder: 0.4
`;

export const roll = `version: 1
title: Harbour, first light
stock: ../stocks/northlight-400.stock.yaml
format: "135"
exposed: { camera: folding 35, lens: 50 mm, date: 2026-05-02, rated: 400 }
scans: scans
light:
  blank: LIGHT.dng
negative:
  base: { density: [0.31, 0.6, 0.76], read: { scan: LIGHT.dng, area: [0.4, 0.4, 0.2, 0.2] } }
positive:
  filtration: { magenta: 4, yellow: 7 }
  toe: 0.3
frames:
  "01":
    scan: H0001.dng
    area: { left: 0.052, top: 0.061, width: 0.894, height: 0.88, tilt: -0.4 }
    positive: { exposure: 0.33 }
    note: bow wave, hold the sky
  "02":
    scan: H0002.dng
    positive:
      contrast: 1.7
  "03":
    scan: H0003.dng
    turn: 90
`;

export const files: Record<string, string> = {
  [stockFile]: stock,
  [rollFile]: roll,
  "Rolls/scans/LIGHT.dng": "",
  "Rolls/scans/H0001.dng": "",
  "Rolls/scans/H0002.dng": "",
  "Rolls/scans/H0003.dng": "",
  "Rolls/scans/H0004.dng": "",
};

/** Settings in which nothing is saved by itself: tests end with texts that are not meant to stay. */
export const quiet = { "files.autoSave": "off", "editor.minimap.enabled": false };
