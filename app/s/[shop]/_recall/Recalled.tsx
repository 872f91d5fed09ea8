import { figureText, instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import type { Recall, RecalledBike } from "@/lib/data/figures/recall";
import { settingDef } from "@/lib/domain/tuning/settings";
import { RecallFilters } from "./RecallFilters";

interface Props {
  readonly recall: Recall;
  readonly slug: string;
  readonly locale: string;
  readonly zone: string;
  /** The page's address, and what else stands in it: the filters lead back to it. */
  readonly here: string;
  readonly query?: Readonly<Record<string, string>> | undefined;
}

/** The last bikes of this model: how they were left, with the spread, and each bike behind it. Nothing where there is none. */
export function Recalled({ recall, slug, locale, zone, here, query }: Props) {
  const { bikes, spreads } = recall;
  if (bikes.length === 0 && !recall.filter) return null;
  const figure = (setting: string, value: number) =>
    figureText(value, locale, settingDef(setting)?.decimals ?? 0);
  const filters = <RecallFilters recall={recall} here={here} query={query} />;
  if (bikes.length === 0)
    return (
      <Section id="recall" title="Bikes like this">
        {filters}
        <p className="text-soft">None of this model, with this work, was left by a job yet.</p>
      </Section>
    );
  return (
    <Section
      id="recall"
      title={bikes.length === 1 ? "The last one like this" : `The last ${bikes.length} like this`}
    >
      {filters}
      <p className="mb-1 text-[14px] text-soft">
        Left at the middle value, and from the least to the greatest where they differ.
      </p>
      <dl className="mb-3 grid gap-x-8 sm:grid-cols-2">
        {spreads.map(({ setting, low, median, high, count }) => (
          <div
            key={setting}
            className="flex flex-wrap items-baseline justify-between gap-x-4 border-hair border-b py-1"
          >
            <dt>
              {settingDef(setting)?.name ?? setting}
              {count < bikes.length && <span className="text-soft">, on {count}</span>}
            </dt>
            <dd className="ml-auto text-end">
              <span className="font-mono">{figure(setting, median)}</span>
              {low !== high && (
                <span className="text-soft">
                  {" "}
                  (<span className="font-mono">{figure(setting, low)}</span> to{" "}
                  <span className="font-mono">{figure(setting, high)}</span>)
                </span>
              )}{" "}
              {settingDef(setting)?.unit && <span className="text-soft">{settingDef(setting)?.unit}</span>}
            </dd>
          </div>
        ))}
      </dl>
      <details>
        <summary className="in-line font-semibold text-brass">The bikes behind it</summary>
        <ul>
          {bikes.map((bike) => (
            <Behind key={bike.bikeId} bike={bike} slug={slug} locale={locale} zone={zone} figure={figure} />
          ))}
        </ul>
      </details>
    </Section>
  );
}

function Behind({
  bike,
  slug,
  locale,
  zone,
  figure,
}: Pick<Props, "slug" | "locale" | "zone"> & {
  readonly bike: RecalledBike;
  readonly figure: (setting: string, value: number) => string;
}) {
  const where = [
    instantText(bike.leftAt.toISOString(), locale, zone, "date"),
    bike.altitudeM === null ? "" : `${Math.round(bike.altitudeM)} m`,
    bike.season ?? "",
  ].filter(Boolean);
  return (
    <li className="border-hair border-b py-2">
      <Link href={`/s/${slug}/bikes/${bike.bikeId}`} className="in-line mr-4 font-semibold">
        {bike.name}
      </Link>
      <Link href={`/s/${slug}/jobs/${bike.jobId}`} className="in-line">
        Job {bike.jobNumber}, {bike.work}
      </Link>
      <span className="block text-[14px] text-soft">{where.join(", ")}</span>
      <span className="block text-[15px]">
        {bike.values
          .map((one) => `${settingDef(one.setting)?.name ?? one.setting} ${figure(one.setting, one.value)}`)
          .join("; ")}
      </span>
      <span className="block text-[15px]">
        Ridden: {bike.ridden || "not recorded"}. The owner said: {bike.said || "nobody has asked"}.
      </span>
      {bike.rejected.length > 0 && (
        <span className="block text-[15px]">Tried and not kept: {bike.rejected.join("; ")}.</span>
      )}
    </li>
  );
}
