import type { BikeRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow } from "@/lib/domain/imports/types";
import type { ModelCore } from "../bikes/modelCards";
import type { MissingCard } from "./types";

/** The smallest card that a row knows enough for; undefined where it does not. */
export function coreOf(values: BikeRow): ModelCore | undefined {
  const { displacementCc, carburettorType, cylinders, carburettors } = values;
  if (!displacementCc || !carburettorType) return undefined;
  return {
    make: values.make ?? "",
    model: values.model ?? "",
    displacementCc,
    cylinders: cylinders ?? 1,
    carburettors: carburettors ?? cylinders ?? 1,
    carburettorType,
  };
}

/** Models without a card, each once, with all that any of their rows says. */
export class MissingCards {
  private readonly byName = new Map<string, MissingCard & { readonly line: number }>();

  add(name: string, { line, values }: ReadRow<BikeRow>): void {
    const known = this.byName.get(name);
    this.byName.set(name, {
      line: known?.line ?? line,
      make: known?.make ?? values.make ?? "",
      model: known?.model ?? values.model ?? "",
      rows: (known?.rows ?? 0) + 1,
      displacementCc: known?.displacementCc ?? values.displacementCc,
      cylinders: known?.cylinders ?? values.cylinders,
      carburettors: known?.carburettors ?? values.carburettors,
      carburettorType: known?.carburettorType ?? values.carburettorType,
    });
  }

  all(): (MissingCard & { readonly line: number })[] {
    return [...this.byName.values()];
  }
}
