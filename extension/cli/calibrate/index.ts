/** `rollbook calibrate`: finds the target's own part (chart, grey, wedge, curve) and runs it. */
import { nearest } from "../../recipe/problems/nearest.ts";
import { DRY_RUN_OPTION } from "../dry-run.ts";
import { ROOT_OPTION } from "../load.ts";
import { type Call, UsageError, type Verb } from "../verb.ts";
import { calibrateCurve } from "./curve.ts";
import { calibrateChart, calibrateGrey, calibrateWedge } from "./scans.ts";

const kinds: Readonly<Record<string, (call: Call, file: string) => Promise<number>>> = {
  chart: calibrateChart,
  grey: calibrateGrey,
  wedge: calibrateWedge,
  curve: calibrateCurve,
};

export const calibrate: Verb = {
  name: "calibrate",
  summary: "measure with a chart, a grey card, a step wedge, or a curve table",
  usage: "chart|grey|wedge ROLL --frame ID [--write RECIPE]  or  curve TABLE [--write RECIPE]",
  details:
    "chart   fits curve, unmix, colour and filtration to a 24-patch chart on a frame, and reports how well patches fit that\n" +
    "        were left out; written to the chart's own roll, the frame gets its exposure too\n" +
    "grey    filtration and exposure that make a grey card grey\n" +
    "wedge   flare, linearity and usable range from a step wedge on the light\n" +
    "curve   ISO speed, gamma, contrast index and base of a characteristic curve in a CSV table (logH,red,green,blue or\n" +
    "        logH,density)\n" +
    "Nothing is written without --write, which names the roll or the stock that is to have the values.",
  example: "rollbook calibrate chart harbour.roll.yaml --frame 36 --write stocks/northlight-400.stock.yaml",
  options: {
    frame: { value: "ID", help: "frame that shows the target" },
    area: { value: "x,y,w,h", help: "grey card or wedge, in fractions of the scan's sides" },
    corners: {
      value: "x,y,x,y,x,y,x,y",
      help: "corners of the chart's patches, the first patch's first, then clockwise",
    },
    reference: { value: "FILE", help: "CSV of the chart's own L*a*b* under D50 (default: the usual 24 patches)" },
    densities: { value: "FILE", help: "the wedge's own densities (default: 21 steps of 0.15)" },
    write: { value: "RECIPE", help: "roll or stock to write the values into" },
    ...DRY_RUN_OPTION,
    ...ROOT_OPTION,
  },
  files: [2, 2],
  run(call) {
    const [kind, file] = call.files;
    const run = Object.hasOwn(kinds, kind) ? kinds[kind] : undefined;
    if (run) return run(call, file);
    const names = Object.keys(kinds);
    const suggestion = nearest(kind, names);
    throw new UsageError(
      `"rollbook calibrate" knows ${names.join(", ")}, not "${kind}".${suggestion ? ` Did you mean "${suggestion}"?` : ""}`,
    );
  },
};
