import { Instant } from "@/app/_ui/Instant";
import type { OnJob } from "@/lib/data/jobs/time/onNow";

interface OnJobNowProps {
  on: readonly OnJob[];
  /** Besides whoever looks. */
  also?: boolean;
  shop: { readonly settings: { readonly locale: string; readonly zone: string } };
}

/** Who is on a job now, and who is on a break from it, each with since when. */
export function OnJobNow({ on, also = false, shop }: OnJobNowProps) {
  if (on.length === 0) return null;
  const { locale, zone } = shop.settings;
  return (
    <ul aria-label="On this job now" className="text-[14px] text-soft">
      {on.map((one) => (
        <li key={`${one.staffId} ${one.onBreak}`}>
          {one.name} is {one.onBreak ? "on a break from this job" : `on this job${also ? " too" : ""}`} since{" "}
          <span className="font-mono">
            <Instant at={one.since.toISOString()} locale={locale} zone={zone} look="time" />
          </span>
        </li>
      ))}
    </ul>
  );
}
