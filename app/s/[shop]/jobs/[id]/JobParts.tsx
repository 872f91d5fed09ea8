import Link from "next/link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { JobView } from "@/lib/data/jobs/get";
import { fetchText } from "@/lib/schemas/bins";
import { quantityText } from "@/lib/schemas/quantity";

/** Parts promised to the job, used, and short. */
export function JobParts({ job, base }: { job: JobView; base: string }) {
  if (job.reservations.length === 0) return null;
  const stepOf = new Map(job.steps.map((step) => [step.id, step]));
  return (
    <Section title="Parts">
      <ul>
        {job.reservations.map((one) => {
          const { part } = one;
          const step = one.stepId === null ? undefined : stepOf.get(one.stepId);
          return (
            <li
              key={one.id}
              className="grid grid-cols-[minmax(0,1fr)_auto] gap-x-4 border-hair border-b py-2"
            >
              <Link href={`${base}/stock/${part.id}`} className="underline-offset-4 hover:underline">
                {part.name} <span className="font-mono text-soft">{part.code}</span>
              </Link>
              <Standing one={one} />
              <span className="text-[14px] text-soft">
                {quantityText(one.wantedMilli, part.unit)} wanted
                {one.heldMilli > 0 && where(part)}
                {step && ` for step ${step.position}, ${step.name}`}
                {one.shortMilli > 0 &&
                  part.onOrderMilli > 0 &&
                  ` · ${quantityText(part.onOrderMilli, part.unit)} on order`}
                {one.heldBy.length > 0 &&
                  ` · ${one.heldBy.map((held) => `job ${held.jobNumber} has ${quantityText(held.heldMilli, part.unit)}`).join(", ")}`}
              </span>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}

const where = (part: JobView["reservations"][number]["part"]) => {
  const text = fetchText(part);
  return text && ` · ${text}`;
};

function Standing({ one }: { one: JobView["reservations"][number] }) {
  const { unit } = one.part;
  if (one.shortMilli > 0)
    return (
      <State shape="diamond" tone="oxide">
        short of {quantityText(one.shortMilli, unit)}
      </State>
    );
  if (one.heldMilli > 0)
    return (
      <State shape="square" tone="brass">
        {quantityText(one.heldMilli, unit)} promised
      </State>
    );
  return <State shape="filled">{quantityText(one.usedMilli, unit)} used</State>;
}
