/**
 * FADGI, Technical Guidelines for Digitizing Cultural Heritage Materials, September 2016 (public domain, CC0): aims for
 * black-and-white and colour negatives and transparencies from 35 mm to 4×5 inches, in four levels of stars.
 */

/** Value for one, two, three and four stars. */
export type Stars = readonly [number, number, number, number];

interface Aim {
  readonly levels: Stars;
  /** Whether a reading has to reach the value or to stay below it. */
  readonly sense: "at-least" | "below" | "at-most";
  readonly unit: string;
}

export const FADGI_FILM = {
  /** Samples per inch on the film. */
  resolution: { levels: [1000, 2000, 3000, 4000], sense: "at-least", unit: "ppi" },
  bits: { levels: [8, 8, 16, 16], sense: "at-least", unit: "bit" },
  /** Density range that the scan has to hold. */
  range: { levels: [3.5, 3.8, 3.9, 4.0], sense: "at-least", unit: "D" },
  /** Non-uniformity of the illumination. */
  evenness: { levels: [8, 5, 3, 1], sense: "below", unit: "%" },
  /** Lateral displacement of the colours. */
  misregistration: { levels: [1.2, 0.8, 0.5, 0.33], sense: "below", unit: "px" },
  /** Frequency where the response is 10 %, over half the sampling frequency. */
  efficiency: { levels: [60, 70, 80, 90], sense: "at-least", unit: "%" },
  /** Response at half the sampling frequency: above, detail comes back as patterns. */
  aliasing: { levels: [0.4, 0.4, 0.3, 0.2], sense: "below", unit: "" },
  /** Frequency where the response is 50 %, over half the sampling frequency. */
  mtf50Least: { levels: [25, 30, 35, 40], sense: "at-least", unit: "%" },
  mtf50Most: { levels: [95, 85, 75, 65], sense: "at-most", unit: "%" },
  /** Deviation of the scale. */
  scale: { levels: [3, 3, 2, 1], sense: "at-most", unit: "%" },
  /** Highest response at any frequency: above 1 the picture was sharpened. */
  sharpening: { levels: [1.3, 1.2, 1.1, 1.0], sense: "below", unit: "" },
} as const satisfies Record<string, Aim>;

export type FadgiAim = keyof typeof FADGI_FILM;

/** Stars that a reading earns: 4 is the best, 0 is below every level. */
export function starsOf(aim: FadgiAim, value: number): 0 | 1 | 2 | 3 | 4 {
  const { levels, sense }: Aim = FADGI_FILM[aim];
  const meets = (level: number): boolean =>
    // The highest star of sharpening reads "≤ 1.0" where the others read "<".
    sense === "at-least" ? value >= level : sense === "below" && level !== 1 ? value < level : value <= level;
  for (const stars of [4, 3, 2, 1] as const) if (meets(levels[stars - 1])) return stars;
  return 0;
}

export const FADGI_SOURCE =
  "FADGI, Technical Guidelines for Digitizing Cultural Heritage Materials, 2016: film 35 mm to 4×5 in";
