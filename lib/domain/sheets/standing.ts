/** The readings of a hold point that count: those that were not taken back with their step. */
export function standing<R extends { readonly id: number }>(hold: {
  readonly readings: readonly R[];
  readonly takenBackTo: number | null;
}): R[] {
  return hold.readings.filter((reading) => reading.id > (hold.takenBackTo ?? 0));
}
