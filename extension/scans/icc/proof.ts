/** Soft proofs: what a printer makes of a picture's colours, as colours of a screen. */
import { deltaE2000 } from "../../engine/colour/difference.ts";
import { labOf, type Lab, luminanceOf, xyzOfLab } from "../../engine/colour/lab.ts";
import { MAX_PROOF_DIFFERENCE, PROOF_SIDE, PROOF_VALUES, type ProofTable } from "../../engine/colour/proof-table.ts";
import { WHITE_D50 } from "../../engine/colour/spaces.ts";
import type { Rgb } from "../../engine/types.ts";
import { iccProfile } from "../output/icc.ts";
import type { PrinterColours } from "../output/sheet.ts";
import { type Side, withTransform } from "./transform.ts";

/** Colour space of a screen. */
export type ScreenSpace = "srgb" | "p3";

const NODES = PROOF_SIDE ** 3;

/**
 * A proof as a table over ROMM RGB, the space that a sheet's picture is worked out in (engine/colour/proof-table.ts).
 *
 * Colours go to the printer as a sheet's do, by its intent, and from there to the screen by the ICC-absolute colorimetric
 * intent (ISO 15076-1): a screen's white stands for the perfect diffuser, so that the paper's white is as dark and as coloured
 * as it is beside it, and its black as light. The fourth value is ΔE00 between a colour and its print, both relative to
 * the paper's white; where black point compensation prints black as the paper's black, the colour is raised with it
 * (ISO 18619), for being lighter by that is no fault of the paper's colours.
 * @throws JobError "profile" where the profile cannot be used
 */
export async function makeProof(printer: PrinterColours, screen: ScreenSpace): Promise<ProofTable> {
  const { profile, file, intent, compensate } = printer;
  const picture: Side = { profile: iccProfile("romm", 3), channels: 3 };
  const paper: Side = { profile: profile.bytes, channels: profile.channels, file };
  const exactly = { compensate: false, exact: true } as const;

  const colours = nodes();
  const printed = new Uint16Array(NODES * profile.channels);
  await withTransform({ from: picture, to: paper, intent, compensate, exact: true }, (convert) =>
    convert(colours, printed),
  );
  const shown = new Uint16Array(NODES * 3);
  const display: Side = { profile: iccProfile(screen, 3), channels: 3 };
  await withTransform({ from: paper, to: display, intent: "absolute-colorimetric", ...exactly }, (convert) =>
    convert(printed, shown),
  );

  const relative = "relative-colorimetric";
  const fitsBlack = intent === relative ? compensate : intent !== "absolute-colorimetric";
  const nearest = new Uint16Array(printed.length);
  await withTransform({ from: picture, to: paper, intent: relative, compensate: fitsBlack, exact: true }, (convert) =>
    convert(colours, nearest),
  );
  const [wanted, found] = [new Float32Array(NODES * 3), new Float32Array(NODES * 3)];
  await withTransform({ from: picture, to: "lab", intent: relative, ...exactly }, (convert) =>
    convert(colours, wanted),
  );
  await withTransform({ from: paper, to: "lab", intent: relative, ...exactly }, (convert) => convert(nearest, found));
  return tableOf(shown, wanted, found, fitsBlack ? luminanceOf(Math.max(0, found[0]!)) : 0);
}

/** Every node's colour: red runs fastest, then green, then blue. */
function nodes(): Uint16Array {
  const colours = new Uint16Array(NODES * 3);
  for (let i = 0; i < NODES; i++)
    for (let c = 0; c < 3; c++)
      colours[3 * i + c] = Math.round(((Math.floor(i / PROOF_SIDE ** c) % PROOF_SIDE) * 65535) / (PROOF_SIDE - 1));
  return colours;
}

/** @param black luminance of the paper's black that a picture's black is raised to, relative to its white */
function tableOf(shown: Uint16Array, wanted: Float32Array, found: Float32Array, black: number): ProofTable {
  const table = new Uint16Array(NODES * PROOF_VALUES);
  const lab = (from: Float32Array, i: number): Lab => [from[i]!, from[i + 1]!, from[i + 2]!];
  for (let i = 0, k = 0; k < table.length; i += 3, k += PROOF_VALUES) {
    table.set(shown.subarray(i, i + 3), k);
    const apart = deltaE2000(raised(lab(wanted, i), black), lab(found, i));
    table[k + 3] = Math.round((Math.min(apart, MAX_PROOF_DIFFERENCE) / MAX_PROOF_DIFFERENCE) * 65535);
  }
  return table;
}

/** Black point compensation from a black of no light (ISO 18619, clause 4.3, from memory): white stays, black becomes `black`. */
const raised = (lab: Lab, black: number): Lab =>
  black === 0 ? lab : labOf(xyzOfLab(lab).map((v, c) => v * (1 - black) + black * WHITE_D50[c]!) as unknown as Rgb);
