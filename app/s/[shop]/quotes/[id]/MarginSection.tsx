import { lazy, Suspense } from "react";
import { Figure } from "@/app/_ui/Figure";
import { Section } from "@/app/_ui/Section";
import type { Given } from "./given";
import type { MarginShown } from "./shown/margin";

/** Of quotes below the least margin. */
const AllowMargin = lazy(async () => ({ default: (await import("./AllowMargin")).AllowMargin }));

interface Props extends Omit<Given, "currency"> {
  margin: MarginShown;
  locale: string;
  mayAllow: boolean;
}

/** What is left of the price, for those who may see it; below the least margin whoever may lets it go, and says why. */
export function MarginSection({ slug, hidden, margin, locale, mayAllow }: Props) {
  const { percent, none, about, warnings, below, said, allowed } = margin;
  return (
    <Section id="margin" title="Margin">
      <Figure
        large
        value={percent ?? none}
        unit={percent === null ? undefined : "%"}
        locale={locale}
        decimals={1}
      />
      <p className="mt-1 text-[14px] text-soft">{about}</p>
      {warnings.map((w) => (
        <p key={w} className="mt-2 text-[14px] text-soft">
          {w}
        </p>
      ))}
      {below.map((one) => (
        <p key={one} className="mt-2 text-[14px]">
          {one}
        </p>
      ))}
      {said && <p className="mt-2 text-[14px]">{said}</p>}
      {!allowed && mayAllow && (
        <Suspense>
          <AllowMargin slug={slug} hidden={hidden} />
        </Suspense>
      )}
    </Section>
  );
}
