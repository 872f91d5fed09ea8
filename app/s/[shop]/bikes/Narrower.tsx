import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import type { Air } from "@/lib/domain/air/weather";
import { Refusal } from "@/lib/domain/refusal";
import { type Narrowing, narrowings, type Taught } from "@/lib/domain/tuning/narrowing";
import type { FuelState } from "@/lib/domain/tuning/targetTypes";

/** The measurement that would narrow the likely range most, in a sentence; the others behind it. */
export function Narrower({
  state,
  air,
  taught,
  locale,
}: {
  state: FuelState;
  air: Air;
  taught: Taught;
  locale: string;
}) {
  const all = ranked(state, air, taught);
  if ("trouble" in all) return <p className="text-[15px]">{all.trouble}</p>;
  const [best] = all;
  if (!best)
    return <p className="text-[15px]">No single measurement would narrow the likely range further.</p>;
  const percent = (sigma: number) => `± ${figureText(Math.expm1(1.5 * sigma) * 100, locale, 1)} %`;
  return (
    <p className="mb-2 max-w-prose text-[15px]">
      {"fact" in best.what ? `Measure first: ${best.name.toLowerCase()}.` : `${best.name} comes first.`} It
      would narrow the likely range from {percent(best.now)} to {percent(best.then)}, more than anything else.{" "}
      <Opens
        name="Measurements by what they would narrow"
        because={all.slice(0, 8).map((n) => ({
          fact: n.name,
          from:
            "fact" in n.what
              ? "assumed on the model card"
              : "one opening held steady for 2 seconds, as it would be kept",
          effect: percent(n.then),
        }))}
      >
        all of them
      </Opens>
    </p>
  );
}

function ranked(
  state: FuelState,
  air: Air,
  taught: Taught,
): readonly Narrowing[] | { readonly trouble: string } {
  try {
    return narrowings(state, air, taught);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { trouble: `${cause.message} ${cause.remedy}` };
  }
}
