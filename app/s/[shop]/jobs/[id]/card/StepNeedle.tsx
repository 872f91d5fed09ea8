import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import type { JobNeedle } from "@/lib/data/jobs/needles";
import { NeedleStations } from "../../../_needle/NeedleStations";

export interface StepNeedleProps {
  readonly needles: readonly JobNeedle[];
  readonly home: string;
  readonly job: { readonly id: number; readonly bikeId: number };
  readonly mayMeasure: boolean;
  readonly locale: string;
}

/** The needle that a step changes: found, to make and as made, with the way to measure it. */
export function StepNeedle({ needles, home, job, mayMeasure, locale }: StepNeedleProps) {
  const measure = (carburettor: number, state: "found" | "made") =>
    `${home}/bikes/${job.bikeId}/needle/new?c=${carburettor}&job=${job.id}&state=${state}`;
  const shown = needles.length > 0 ? needles : null;
  return shown?.map(({ carburettor, found, target, made }) => (
    <div key={carburettor} className="mt-3 border-brass border-l-4 bg-brass-wash px-3.5 py-2">
      <p className="font-semibold">
        {shown.length > 1 ? `Needle, carburettor ${carburettor}` : "Needle"}, diameters in mm
      </p>
      <NeedleStations
        caption="Needle: found, to make, as made"
        columns={[
          { name: "Found", record: found?.record ?? null },
          { name: "To make", record: target?.record ?? null },
          { name: "Made", record: made?.record ?? null },
        ]}
        locale={locale}
      />
      {target === null && (
        <Note title="No target.">
          The needle was not known when this was agreed. Measure it as found, then quote the change again.
        </Note>
      )}
      {mayMeasure && (
        <p className="flex flex-wrap gap-3 print:hidden">
          {made === null && found?.jobId !== job.id && (
            <LinkButton href={measure(carburettor, "found")}>Measure as found</LinkButton>
          )}
          <LinkButton href={measure(carburettor, "made")}>Measure as made</LinkButton>
        </p>
      )}
    </div>
  ));
}
