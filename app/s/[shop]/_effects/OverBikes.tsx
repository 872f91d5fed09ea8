import { Link } from "@/app/_ui/Link";
import type { PackageEffects } from "@/lib/data/figures/effects";
import { effectDef } from "@/lib/domain/procedures/effects";
import { effectText, underText } from "./effectText";

interface Props {
  readonly effects: PackageEffects;
  readonly slug: string;
  readonly locale: string;
}

/** What work did on bikes here: the middle change, from the least to the greatest, and each bike behind it. */
export function OverBikes({ effects, slug, locale }: Props) {
  return (
    <ul className="max-w-[860px]">
      {effects.map(({ kind, under, median, low, high, bikes, counted }) => (
        <li key={`${kind} ${JSON.stringify(under)}`} className="border-hair border-b py-2">
          <p>
            On <span className="font-mono">{bikes}</span> {bikes === 1 ? "bike" : "bikes"} here:{" "}
            {effectDef(kind).name.toLowerCase()}{" "}
            <strong className="font-mono">{effectText(kind, median, locale, true)}</strong>
            {bikes > 1 && (
              <span className="text-soft">
                {" "}
                (from {effectText(kind, low, locale, true)} to {effectText(kind, high, locale, true)})
              </span>
            )}
            <span className="text-soft"> {underText(under, locale)}</span>
          </p>
          <details className="print:hidden">
            <summary className="inline-flex min-h-6 items-center text-[14px] text-brass underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
              {bikes === 1 ? "The bike behind it" : "The bikes behind it"}
            </summary>
            <ul>
              {counted.map((one) => (
                <li key={one.bikeId} className="flex flex-wrap justify-between gap-x-4 text-[15px]">
                  <Link href={`/s/${slug}/bikes/${one.bikeId}/effects`} className="in-line">
                    {one.name}
                  </Link>
                  <span className="self-center font-mono">
                    {one.before && effectText(kind, one.before.value, locale)} →{" "}
                    {one.after && effectText(kind, one.after.value, locale)}
                  </span>
                </li>
              ))}
            </ul>
          </details>
        </li>
      ))}
    </ul>
  );
}
