/**
 * The automatic start on rolls of published films with truth: greys, brightness, one subject at several exposures, the
 * kind of film, developed TIFFs. The film's family, its dyes, camera and light are left out of the prior. Seeds below
 * 1000 are for tuning; held-out rolls have seeds from 1001, and measured LEDs as lights where their file is.
 *
 * Usage: node dist/bench.mjs automatic-start [--rolls 12] [--seed 1 | --held-out] [--frames 7] [--each]
 */
import { parseArgs } from "node:util";
import { type AutoRoll, autoRoll, beginRoll, judgeBegun, judgeRoll } from "../../external/auto-rolls.ts";
import { random } from "../../witness/random.ts";
import { judgeDeveloped, meanChroma } from "./developed.ts";
import { realKinds, simulatedKinds } from "./kinds.ts";
import { measuredLights } from "./lights.ts";
import { bracketed, brightnessErrors, namedChroma, noiseless, subjectDifference } from "./measures.ts";
import { sceneSources } from "./scenes.ts";

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    rolls: { type: "string", default: "12" },
    seed: { type: "string" },
    "held-out": { type: "boolean", default: false },
    frames: { type: "string", default: "7" },
    each: { type: "boolean", default: false },
  },
});
const heldOut = values["held-out"];
const first = Number(values.seed ?? (heldOut ? 1001 : 1));
const count = Number(values.rolls);
if (heldOut !== first > 1000) throw new Error("Held-out rolls have seeds from 1001: give --held-out with them.");

const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
const most = (v: readonly number[]): number => Math.max(...v);
const sources = await sceneSources();
const leds = heldOut ? measuredLights() : undefined;
console.log(
  `${heldOut ? "held-out" : "tuning"} rolls ${first} to ${first + count - 1}; scenes: ` +
    `${sources.map((s) => s.name).join(", ")}; lights: ${leds ? `${leds.length} measured LEDs` : "committed tables"}`,
);

/** A figure over rolls: means of the rolls' means, the worst of them, and the worst step. */
const greys = (name: string, chromas: readonly (readonly number[])[], bar: string): void =>
  console.log(
    `${name.padEnd(42)} mean ${mean(chromas.map(mean)).toFixed(2)}, worst roll ${most(chromas.map(mean)).toFixed(1)}, ` +
      `worst step ${mean(chromas.map(most)).toFixed(1)} on average, ${most(chromas.map(most)).toFixed(1)} at most   (${bar})`,
  );
const within = (errors: readonly number[]): string => {
  const near = errors.filter((e) => Math.abs(e) <= 0.3).length / errors.length;
  const rms = Math.sqrt(mean(errors.map((e) => e * e)));
  return `${Math.round(100 * near)} % within 0.3 EV, mean ${mean(errors).toFixed(2)}, rms ${rms.toFixed(2)} EV`;
};

const rolls = Array.from({ length: count }, (_, i) => {
  const seed = first + i;
  const { name, scenes } = sources[i % sources.length];
  const r = random(seed, "bench of the automatic start");
  const light = leds?.[Math.floor(r.uniform() * leds.length)];
  const frames = Number(values.frames);
  const draw = (stops: number): AutoRoll =>
    autoRoll(seed, scenes(seed), { frames, stops, ...(light ? { light } : {}) });
  // As metered: what is left is how evenly a meter and a shutter work.
  return { seed, scenes: name, varied: draw(0.4), metered: draw(0.05) };
});

const figures = rolls.map(({ seed, scenes, varied, metered }) => {
  const known = beginRoll(varied, seed);
  const judged = judgeBegun(varied, known);
  const unknown = beginRoll(varied, seed, { knowledge: "nothing" });
  const single = varied.frames.map((_, i) => judgeRoll(varied, seed, "blank and base", i));
  const steps = bracketed(metered);
  const bracket = beginRoll(steps, seed);
  const last = steps.frames.length;
  const clean = noiseless(steps, seed);
  const pairs = [last - 3, last - 2, last - 1].map((k) => {
    const pair = beginRoll(steps, seed, { only: [0, k] });
    return subjectDifference(pair, [clean[0], clean[k]], 0, [1])[0];
  });
  const spaces = (["srgb", "adobe", "romm"] as const).map((space, k) =>
    judgeDeveloped(varied, seed, { space, balance: (k + 1) / 4, curve: 0 }),
  );
  const figure = {
    known: judged.chroma,
    unknown: judgeBegun(varied, unknown).chroma,
    single: single.map(({ chroma }) => mean(chroma)),
    singleExpected: single.map((one) => one.values.cast ?? 0),
    named: namedChroma(varied, seed),
    metered: brightnessErrors(metered, beginRoll(metered, seed)),
    varied: brightnessErrors(varied, known),
    meteredUnknown: brightnessErrors(metered, beginRoll(metered, seed, { knowledge: "nothing" })),
    subject: subjectDifference(bracket, clean, 0, [last - 3, last - 2, last - 1]),
    pairs,
    spaces,
    colour: meanChroma(known.frames, known.look, known.values.exposure),
  };
  if (values.each)
    console.log(
      `${String(seed).padStart(5)} ${varied.stock.name.slice(0, 52).padEnd(52)} ${varied.cameraName.padEnd(16)} ` +
        `${varied.lightName.slice(0, 22).padEnd(22)} ${scenes.padEnd(14)} known ${mean(figure.known).toFixed(1)}/${most(figure.known).toFixed(1)} ` +
        `neither ${mean(figure.unknown).toFixed(1)} single ${mean(figure.single).toFixed(1)} named ${figure.named ? mean(figure.named).toFixed(1) : "–"} ` +
        `EV ${mean(figure.metered).toFixed(2)} steps ${figure.subject.map((v) => v.toFixed(1)).join(" ")}`,
    );
  return figure;
});
type Figure = (typeof figures)[number];
const of = <T>(pick: (f: Figure) => T): T[] => figures.map(pick);

greys(
  "greys, base and blank known",
  of((f) => f.known),
  "bar 2.5, 4, 6",
);
greys(
  "greys, neither",
  of((f) => f.unknown),
  "bar 3.5, 5, 7",
);
greys(
  "greys, film named",
  figures.flatMap((f) => (f.named ? [f.named] : [])),
  "bar 2",
);
const single = figures.flatMap((f) => f.single);
console.log(
  `single frames, base and blank known        mean ${mean(single).toFixed(2)}, worst ${most(single).toFixed(1)}   (bar 5)`,
);
console.log(`mid-grey, frames as metered                ${within(figures.flatMap((f) => f.metered))}   (bar 80 %)`);
console.log(`  the same, neither base nor blank         ${within(figures.flatMap((f) => f.meteredUnknown))}`);
console.log(`mid-grey, frames ± 0.4 stops               ${within(figures.flatMap((f) => f.varied))}`);
const steps = (pick: (f: Figure) => readonly number[]): string =>
  [0, 1, 2].map((k) => mean(of((f) => pick(f)[k])).toFixed(1)).join(", ");
console.log(
  `one subject at −1, +1, +3 stops, in a roll ΔE00 ${steps((f) => f.subject)}, mean ${mean(figures.flatMap((f) => f.subject)).toFixed(2)}   (bar 3)`,
);
console.log(
  `  the same, rolls of these two frames      ΔE00 ${steps((f) => f.pairs)}, mean ${mean(figures.flatMap((f) => f.pairs)).toFixed(2)}`,
);
for (const [k, name] of ["sRGB", "Adobe RGB", "ROMM RGB"].entries()) {
  const all = of((f) => f.spaces[k]);
  greys(
    `greys, developed to ${name}`,
    all.map((s) => s.chroma),
    "as raw",
  );
  const ratio = mean(figures.map((f) => f.spaces[k].colour / f.colour));
  console.log(
    `  chroma of pictures over the raws' ${ratio.toFixed(2)}; blocks outside the space ${(100 * mean(all.map((s) => s.outside))).toFixed(1)} %`,
  );
}
const kinds = sources.map(({ scenes }, i) => simulatedKinds(scenes(first + i), first + i));
const sum = (pick: (k: (typeof kinds)[number]) => { right: number; of: number; wrong: readonly string[] }): string =>
  `${kinds.reduce((s, k) => s + pick(k).right, 0)} of ${kinds.reduce((s, k) => s + pick(k).of, 0)}` +
  kinds.flatMap((k) => pick(k).wrong.map((w) => `\n    wrong: ${w}`)).join("");
console.log(`kind of film, simulated rolls              ${sum((k) => k.rolls)}`);
console.log(`kind of film, their frames alone           ${sum((k) => k.frames)}`);
const real = await realKinds();
console.log(
  real
    ? `kind of film, real files                   ${real.right} of ${real.of}${real.wrong.map((w) => `\n    wrong: ${w}`).join("")}`
    : "kind of film, real files                   none on this machine",
);
