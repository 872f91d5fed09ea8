import { Figure } from "@/app/_ui/Figure";
import { Link } from "@/app/_ui/Link";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";

export interface BikeLine {
  readonly id: number;
  readonly plate: string;
  readonly year: number | null;
  readonly colour: string;
  readonly odometerKm: number | null;
  readonly modelCard: { readonly make: string; readonly model: string };
}

/** A customer's bikes, one under the other. */
export function BikeLines({
  slug,
  locale,
  units,
  bikes,
}: {
  slug: string;
  locale: string;
  units: string;
  bikes: readonly BikeLine[];
}) {
  if (bikes.length === 0) return <p className="text-soft">No bike yet. Add one to quote for it.</p>;
  return (
    <ul>
      {bikes.map((bike) => (
        <li key={bike.id} className="border-hair border-b">
          <Link
            href={`/s/${slug}/bikes/${bike.id}`}
            className="flex min-h-12 flex-wrap items-baseline justify-between gap-x-4 py-2.5 no-underline hover:bg-sheet"
          >
            <span>
              <strong>
                {bike.modelCard.make} {bike.modelCard.model}
              </strong>
              {bike.year && `, ${bike.year}`} <span className="text-soft">{bike.colour}</span>
            </span>
            <span className="flex gap-4">
              {bike.odometerKm !== null && (
                <Figure
                  value={shownDistance(bike.odometerKm, units)}
                  unit={distanceUnit(units)}
                  locale={locale}
                />
              )}
              <span className="font-mono">{bike.plate}</span>
            </span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
