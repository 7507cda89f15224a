/** What is known of a colour negative's neutral axis before a picture is seen. */

/** Two functions of the green density above base, red's and blue's. */
export interface NeutralPair {
  readonly red: readonly number[];
  readonly blue: readonly number[];
}

/** Mean and components of the neutral curves of published films as cameras see them. */
export interface NeutralPrior extends NeutralPair {
  /** Green densities above base at which everything is tabled; the first is 0. */
  readonly green: readonly number[];
  /** Principal components, each scaled by its standard deviation. */
  readonly components: readonly NeutralPair[];
  /** log10 exposure above mid-grey of a neutral as metered, median of the films. */
  readonly logH: readonly number[];
}
