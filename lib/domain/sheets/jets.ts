/** A jet that the step which fits it has to settle: one entry for each carburettor. Quantities in thousandths. */
export interface JetToSettle {
  /** Key of the setting: mainJet, pilotJet. */
  readonly setting: string;
  /** The drawer it comes from; empty where nobody knows. */
  readonly family: string;
  /** Position of the carburettor; null for the only one. */
  readonly carburettor: number | null;
  readonly quantityMilli: number;
  /** Number of the quote that left it open; null for a correction after a ride. */
  readonly quote: string | null;
  readonly settled?: SettledJet;
}

/** The jet that was fitted. */
export interface SettledJet {
  /** Null where it did not come out of the shop's stock. */
  readonly partId: number | null;
  readonly size: number;
  /** Why it did not come out of stock; empty where it did. */
  readonly why: string;
}

/**
 * Entries of a step, one for each carburettor of a jet that is still open. `quantityMilli` is for all of them together and is
 * shared out equally; a bike of one carburettor needs no position.
 */
export function jetsToSettle(
  jet: Omit<JetToSettle, "carburettor" | "settled"> & { readonly carburettors: readonly number[] },
  carburettorsOfBike: number,
): JetToSettle[] {
  const { carburettors, quantityMilli, ...same } = jet;
  const each = quantityMilli / Math.max(1, carburettors.length);
  return carburettors.map((position) => ({
    ...same,
    carburettor: carburettorsOfBike > 1 ? position : null,
    quantityMilli: each,
  }));
}
