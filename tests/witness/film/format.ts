/** The piece of film around a picture: sizes in millimetres. */

export interface FilmFormat {
  readonly name: string;
  /** The picture on the film. */
  readonly picture: readonly [width: number, height: number];
  /** The strip's own width, across which the picture's height lies; film ends there. */
  readonly strip: number;
  /** Perforation along both edges: pitch, size along and across the film, distance of the holes from the film's edge. */
  readonly perforation?: { pitch: number; along: number; across: number; fromEdge: number };
  /** Height of the edge marking's letters and their distance from the film's edge. */
  readonly marking: { height: number; fromEdge: number };
}

/** 135: 24 × 36 mm, eight holes of 4.750 mm pitch to a frame (KS perforation; sizes from memory). */
export const FORMAT_135: FilmFormat = {
  name: "135",
  picture: [36, 24],
  strip: 34.975,
  perforation: { pitch: 4.75, along: 1.981, across: 2.794, fromEdge: 2.01 },
  marking: { height: 1.0, fromEdge: 0.5 },
};

/** 135 film without holes, as bulk film for copying is sold: the marking lies between picture and edge. */
export const FORMAT_135_PLAIN: FilmFormat = {
  name: "135 unperforated",
  picture: [36, 24],
  strip: 34.975,
  marking: { height: 1.3, fromEdge: 3.0 },
};

/** Half frames on 135 film: four holes to a frame (common practice, no source). */
export const FORMAT_135_HALF: FilmFormat = { ...FORMAT_135, name: "135 half frame", picture: [18, 24] };

/** 120 roll film (ISO 732): 61.5 mm wide (from memory), no holes. */
export const FORMAT_66: FilmFormat = {
  name: "120 6x6",
  picture: [56, 56],
  strip: 61.5,
  marking: { height: 1.4, fromEdge: 0.6 },
};
export const FORMAT_69: FilmFormat = { ...FORMAT_66, name: "120 6x9", picture: [84, 56] };
export const FORMAT_645: FilmFormat = { ...FORMAT_66, name: "120 6x4.5", picture: [41.5, 56] };
