/** How far a computed value can be trusted before anyone has measured. */
export type Firmness = "firm" | "starting point";

/** One fact behind a computed value: what it is, where it comes from, what it did to the result. */
export interface Reason {
  readonly fact: string;
  readonly from: string;
  readonly effect?: string;
  /** Of this fact alone, where a value rests on firm and judged ones together. */
  readonly firmness?: Firmness;
}

export const VERIFY = "Starting point: verify by plug, lambda and test ride.";
