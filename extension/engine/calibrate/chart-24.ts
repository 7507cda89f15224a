/**
 * The usual 24-patch chart, row by row: L*a*b* under D50, 2° observer, worked out from the reflectances printed in
 * ISO 17321-1:2012. A chart of your own, measured, is better: charts differ by ΔE00 1 to 2 and fade.
 */
import type { ReferencePatch } from "./chart-read.ts";

export const CHART_24: readonly ReferencePatch[] = [
  { name: "dark skin", lab: [37.82, 15.47, 16.48] },
  { name: "light skin", lab: [66.73, 17.39, 18.18] },
  { name: "blue sky", lab: [50.35, -4.84, -21.76] },
  { name: "foliage", lab: [42.71, -14.63, 21.88] },
  { name: "blue flower", lab: [56.25, 9.23, -24.46] },
  { name: "bluish green", lab: [70.75, -31.71, 0.15] },
  { name: "orange", lab: [62.36, 34.17, 59.17] },
  { name: "purplish blue", lab: [40.21, 9.45, -42.62] },
  { name: "moderate red", lab: [52.23, 48.26, 17.48] },
  { name: "purple", lab: [30.86, 21.72, -20.9] },
  { name: "yellow green", lab: [72.09, -23.22, 56.71] },
  { name: "orange yellow", lab: [72.66, 19.1, 66.96] },
  { name: "blue", lab: [29.18, 17.04, -52.06] },
  { name: "green", lab: [55.31, -39.92, 33.15] },
  { name: "red", lab: [42.56, 56.07, 28.46] },
  { name: "yellow", lab: [82.36, 3.75, 78.97] },
  { name: "magenta", lab: [51.96, 49.73, -12.62] },
  { name: "cyan", lab: [50.6, -28.59, -28.47] },
  { name: "white", lab: [95.47, -0.17, 0.65] },
  { name: "neutral 8", lab: [80.96, 0.15, 0.1] },
  { name: "neutral 6.5", lab: [66.38, -0.0, -0.08] },
  { name: "neutral 5", lab: [52.18, 0.01, -0.09] },
  { name: "neutral 3.5", lab: [36.47, -0.3, -0.48] },
  { name: "black", lab: [21.4, -0.17, -0.94] },
];
