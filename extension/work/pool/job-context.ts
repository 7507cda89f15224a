/** What a job may say while it runs. */
export interface JobContext {
  /** Tells the client the part that is done, 0 … 1. */
  report(part: number): void;
  /** Throws when the client has asked the job to stop; called between stages and inside long loops. */
  checkpoint(): void;
}
