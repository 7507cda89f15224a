/** Default limit of a wait in milliseconds; generous, since the machine may be slow and shared. */
export const LIMIT = 30_000;

export interface WaitOptions {
  /** Milliseconds until the wait gives up. */
  limit?: number;
  /** Milliseconds between two looks. */
  every?: number;
}

/**
 * Looks again and again until `look` gives something other than undefined, null or false, and returns that.
 * @param what what is waited for, to finish the sentence "Waited … for …"
 * @throws Error after the limit, with the last error that `look` threw
 */
export async function until<T>(
  what: string,
  look: () => T | Promise<T>,
  { limit = LIMIT, every = 50 }: WaitOptions = {},
): Promise<NonNullable<Exclude<T, false>>> {
  const end = performance.now() + limit;
  let lastError: unknown;
  for (;;) {
    try {
      const found = await look();
      if (found !== undefined && found !== null && found !== false) return found as NonNullable<Exclude<T, false>>;
      lastError = undefined;
    } catch (error) {
      lastError = error;
    }
    if (performance.now() > end)
      throw new Error(`Waited ${limit / 1000} s in vain for ${what}.`, lastError ? { cause: lastError } : undefined);
    await new Promise((resolve) => setTimeout(resolve, every));
  }
}
