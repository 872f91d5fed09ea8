/**
 * What a search may still do, in units of about ten nanoseconds, counted where its time goes. A number of nodes would not do: one
 * of them takes a microsecond in one list of work and a millisecond in another.
 */
export interface Work {
  left: number;
}
