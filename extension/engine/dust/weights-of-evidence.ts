/**
 * A second look at the things of a colour negative that may be dust. The first one takes each kind of evidence as if it
 * were independent of the others and as its law says. Here each kind gets the weight that it was seen to have (a "weight
 * of evidence" is the logarithm of a likelihood ratio, Good 1950, from memory), as a broken line over what was measured.
 */
import type { Candidate } from "./candidates.ts";
import { type Features, thinned } from "./features.ts";
import { TRACE } from "./measure.ts";
import { quantile } from "../math/statistics.ts";
import { BIAS, type TermName, WEIGHTS } from "./weight-table.ts";

/** What the first look has found. */
export interface FirstLook {
  /** Places of the things that were looked at among all, and these things. */
  readonly places: readonly number[];
  readonly things: readonly Candidate[];
  readonly features: readonly Features[];
  /** Which of them are in question. */
  readonly open: readonly number[];
  /** Evidence that each is dust (0 where not in question), ln of its density as dust, the part of it taken for dust. */
  readonly first: Float64Array;
  readonly dust: readonly number[];
  readonly share: Float64Array;
}

/** Part of the evidence that stays the first look's: together the two are surer than either. */
const FIRST = 0.15;
/** The evidence at which a thing is as well taken for dust: missing two specks weighs as much as healing five stars. */
const BALANCE = -0.9;

/** Evidence of each thing in question, as the logarithm of a ratio of probabilities: above 0 it is taken for dust. */
export function secondLook(look: FirstLook): number[] {
  const names = Object.keys(WEIGHTS) as TermName[];
  return termsOf(look).map((terms, k) => {
    const weighed = names.reduce((sum, name) => sum + weightAt(name, terms[name]), BIAS);
    return (1 - FIRST) * weighed + FIRST * look.first[look.open[k]] - BALANCE;
  });
}

/** A term's broken line; level beyond its ends. */
function weightAt(name: TermName, value: number): number {
  const { at, weight } = WEIGHTS[name];
  if (!(value > at[0])) return weight[0];
  for (let k = 1; k < at.length; k++)
    if (value < at[k]) return weight[k - 1] + ((weight[k] - weight[k - 1]) * (value - at[k - 1])) / (at[k] - at[k - 1]);
  return weight[at.length - 1];
}

/** Distances over which the picture's things are alike: ln of size and of strength, edge, slopes, ln T of their middle. */
const ALIKE = { size: 0.25, strength: 0.25, edge: 0.06, slope: 0.02, bottom: 0.25 };
/** Squared distance beyond which two things are not alike. */
const UNLIKE = 16;
/** Likenesses and specks that a scan is taken to have in any case. */
const [FEW_ALIKE, FEW_SPECKS] = [0.02, 3];

/** ln T of the film around a thing, and of its middle. */
const around = ({ nature }: Candidate): number => Math.log(Math.max(TRACE, nature.around[1]));
const bottom = (thing: Candidate): number => around(thing) + thing.nature.depth;

/** The kinds of evidence of each thing in question. */
export function termsOf(look: FirstLook): Record<TermName, number>[] {
  const { things, features, open, dust, share } = look;
  const bottoms = Float64Array.from(things, bottom);
  const densest = quantile(bottoms, 0.1);
  const specks = Math.log(FEW_SPECKS + share.reduce((s, p) => s + p, 0));
  const against = (alike: number): number => Math.log(FEW_ALIKE + alike) - specks;
  const others = othersOf(look, bottoms);
  return open.map((i) => {
    const f = features[i];
    const { nature, stretch } = things[i];
    const [zr, zb] = [f.red / f.errorRed, f.blue / f.errorBlue];
    const like = likenessOf(look, i, bottoms[i], others);
    return {
      colour: Math.sqrt((zr * zr + zr * zb + zb * zb) / 0.75),
      tone: against(like.tone),
      toneAndForm: against(like.toneAndForm),
      dust: dust[i],
      opacity: f.opacity,
      peak: f.peak,
      strength: f.strength,
      edge: f.edge,
      stretch,
      filled: Math.log(nature.filled) - f.size,
      bottom: bottoms[i] - densest,
      unrest: Math.log(nature.unrest + 0.003),
    };
  });
}

/** The things that the others are compared with, so many numbers each: most pairs are told apart by the first five. */
type Others = { readonly table: Float64Array; readonly chosen: readonly number[] };
const COLUMNS = 9;

function othersOf({ features, share }: FirstLook, bottoms: Float64Array): Others {
  const { step, chosen } = thinned(features.length);
  const table = new Float64Array(COLUMNS * chosen.length);
  for (const [k, j] of chosen.entries()) {
    const b = features[j];
    const errors = [b.errorRed ** 2 + ALIKE.slope ** 2, b.errorBlue ** 2 + ALIKE.slope ** 2];
    const form = [b.size / ALIKE.size, b.strength / ALIKE.strength, b.edge / ALIKE.edge];
    table.set([b.red, b.blue, ...errors, bottoms[j] / ALIKE.bottom, ...form, step * (1 - share[j])], COLUMNS * k);
  }
  return { table, chosen };
}

/** How many of the picture's things are like one, each by as much as it is like it. */
interface Likeness {
  /** Of its colour, and as dense in their middle. */
  readonly tone: number;
  /** Of its size, strength and edge as well. */
  readonly toneAndForm: number;
}

function likenessOf({ features }: FirstLook, i: number, bottomOf: number, { table, chosen }: Others): Likeness {
  const a = features[i];
  const [vr, vb] = [a.errorRed ** 2, a.errorBlue ** 2];
  const level = bottomOf / ALIKE.bottom;
  const [size, strength, edge] = [a.size / ALIKE.size, a.strength / ALIKE.strength, a.edge / ALIKE.edge];
  let tone = 0;
  let toneAndForm = 0;
  for (let k = 0, o = 0; k < chosen.length; k++, o += COLUMNS) {
    const red = table[o] - a.red;
    const blue = table[o + 1] - a.blue;
    const apart = table[o + 4] - level;
    const square = (red * red) / (table[o + 2] + vr) + (blue * blue) / (table[o + 3] + vb) + apart * apart;
    if (square > UNLIKE || chosen[k] === i) continue;
    const same = table[o + 8] * Math.exp(-square / 2);
    tone += same;
    const form = (table[o + 5] - size) ** 2 + (table[o + 6] - strength) ** 2 + (table[o + 7] - edge) ** 2;
    if (form <= UNLIKE) toneAndForm += same * Math.exp(-form / 2);
  }
  return { tone, toneAndForm };
}
