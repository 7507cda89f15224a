/** More pixels than any camera back or stitched scan has; a header that claims more is wrong or hostile. */
export const MAX_PIXELS = 200_000_000;
