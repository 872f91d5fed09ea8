import type { RuleOut } from "@/lib/domain/tuning/rideTypes";

/** Faults that look like a wrong setting, to be ruled out before one is changed. */
export function RuleOutList({ ruleOut }: { ruleOut: readonly RuleOut[] }) {
  return (
    <ul className="list-disc pl-5 text-[15px]">
      {ruleOut.map((one) => (
        <li key={one.check} className="py-0.5">
          {one.check}: <span className="text-soft">{one.why}</span>
        </li>
      ))}
    </ul>
  );
}
