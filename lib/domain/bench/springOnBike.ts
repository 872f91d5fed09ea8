import { Refusal } from "../refusal";
import { valuesOf } from "../tuning/changes";
import { fittedSpring } from "../tuning/fittedSpring";
import { machineFrom } from "../tuning/machine";
import type { FoundCarburettor, ModelCardFacts } from "../tuning/targetTypes";

export interface SpringOnBike {
  /** Null where neither a description nor the card says it. */
  readonly rateNPerM: number | null;
  /** Null where nobody counted them. */
  readonly coils: number | null;
  readonly freeMm: number;
}

/**
 * The slide spring that a carburettor has now: as somebody described it, else the delivered one as its sheet says that it was cut.
 * Null on a mechanical slide, and where what is known contradicts itself. Source: slideFacts.ts.
 */
export function springOnBike(card: ModelCardFacts, found: FoundCarburettor): SpringOnBike | null {
  if (card.carburettorType?.value === "mechanical") return null;
  const described = fittedSpring(found.parts);
  const known = typeof described?.rateNPerM === "number" || card.springRateNPerM !== undefined;
  try {
    const { spring } = machineFrom(card, 1, valuesOf(found.settings), found.needle, {
      springs: { reference: described },
    });
    return {
      rateNPerM: known ? spring.rateNPerM : null,
      coils: spring.coils ?? null,
      freeMm: 1000 * spring.freeM,
    };
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
