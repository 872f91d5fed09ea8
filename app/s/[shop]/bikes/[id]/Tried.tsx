import { figureText, instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import type { TriedChange } from "@/lib/data/rides/tried";
import { settingDef } from "@/lib/domain/tuning/settings";

/** What was tried after rides on this bike: kept or taken back, with what it did. Nothing where nothing was. */
export function Tried({
  tried,
  slug,
  locale,
  zone,
}: {
  tried: readonly TriedChange[];
  slug: string;
  locale: string;
  zone: string;
}) {
  if (tried.length === 0) return null;
  return (
    <Section title="Tried after rides">
      <ul>
        {tried.map((one) => {
          const def = settingDef(one.setting);
          const figure = (value: number) => figureText(value, locale, def?.decimals ?? 0);
          return (
            <li
              key={one.id}
              className="flex flex-wrap items-baseline justify-between gap-x-4 border-hair border-b py-2"
            >
              <span>
                {def?.name ?? one.setting}{" "}
                <span className="font-mono">
                  {figure(one.from)} → {figure(one.to)}
                </span>{" "}
                {def?.unit}
                <span className="block text-[14px] text-soft">
                  {instantText(one.at.toISOString(), locale, zone, "date")},{" "}
                  <Link href={`/s/${slug}/jobs/${one.jobId}`} className="underline underline-offset-4">
                    job {one.jobNumber}
                  </Link>
                </span>
              </span>
              <span>
                {one.result}
                {!one.kept && ", taken back"}
              </span>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
