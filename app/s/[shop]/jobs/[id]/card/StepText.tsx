import { Caution } from "@/app/_ui/Caution";
import type { CardStep } from "@/lib/data/jobs/card";

/** A caution's first words stand out when they are a short sentence of their own. */
function split(caution: string): [string, string] {
  const end = caution.indexOf(". ");
  return end > 0 && end < 32 ? [caution.slice(0, end + 1), caution.slice(end + 2)] : ["Care.", caution];
}

/** What to do, what can hurt, and what to do it with. */
export function StepText({ step }: { step: CardStep }) {
  const drivers = step.tools.filter((tool) => /JIS/i.test(tool));
  const others = step.tools.filter((tool) => !/JIS/i.test(tool));
  return (
    <>
      {step.instruction && <p className="whitespace-pre-line text-[17px]">{step.instruction}</p>}
      {step.cautions.map((caution) => {
        const [title, rest] = split(caution);
        return (
          <Caution key={caution} title={title}>
            {rest}
          </Caution>
        );
      })}
      {step.tools.length > 0 && (
        <p className="mt-3 flex flex-wrap justify-between gap-x-4 border-hair border-b pb-2.5">
          {others.length > 0 && <span>{others.join(", ")}</span>}
          {drivers.length > 0 && (
            <span className="text-soft">
              {drivers.join(", ")}
              <span className="block text-[13px]">not Phillips: it burrs the screw</span>
            </span>
          )}
        </p>
      )}
    </>
  );
}
