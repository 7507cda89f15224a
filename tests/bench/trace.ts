/** What the benches read of a browser's trace (the Trace Event Format, complete events and names of threads). */
export interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds on the clock. */
  readonly ts: number;
  readonly dur?: number;
  /** Microseconds of the processor. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}
