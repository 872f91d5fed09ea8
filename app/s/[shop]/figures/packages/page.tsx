import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { moneyText } from "@/app/_ui/moneyText";
import { Note } from "@/app/_ui/Note";
import { OrderedTable } from "@/app/_ui/OrderedTable";
import { Section } from "@/app/_ui/Section";
import { type PackageSum, packageJobsIn } from "@/lib/data/figures/packageJobs";
import { rangesFor } from "@/lib/data/figures/ranges";
import { open } from "@/lib/gate/open";
import { FiguresQuery } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";
import { figuresQuery } from "../query";

const left = (one: Pick<PackageSum, "netMinor" | "partsMinor">) => one.netMinor - one.partsMinor;
const anHour = (one: PackageSum) =>
  one.tookMinutes > 0 ? Math.round((left(one) * 60) / one.tookMinutes) : null;
const over = (one: Pick<PackageSum, "plannedMinutes" | "tookMinutes">) =>
  one.plannedMinutes > 0 ? `${Math.round((one.tookMinutes / one.plannedMinutes) * 100)} %` : "–";

/** What packages leave: billed against parts and time, planned against taken, rides and comebacks; each opens to its jobs. */
export default async function PackageFigures({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("margin.read", slug);
  const query = await searchParams;
  const asked = FiguresQuery.parse(query);
  const ranges = await rangesFor(shop, asked);
  const [now, before] = await Promise.all([
    packageJobsIn(shop, ranges.range),
    packageJobsIn(shop, ranges.before),
  ]);
  const { currency, locale } = shop.settings;
  const chosen = now.packages.find((one) => one.packages === query.package);
  const jobs = chosen ? now.rows.filter((row) => row.packages === chosen.packages) : [];
  const money = (minor: number) => ({ minor, currency });
  const beforeOf = (name: string) => before.packages.find((one) => one.packages === name);
  return (
    <>
      <FiguresHead
        shop={shop}
        title="Packages"
        room="packages"
        asked={asked}
        ranges={ranges}
        csv="packages"
      />
      {(now.cut || before.cut) && (
        <Note title="Only the newest 3,000 jobs are counted.">Choose a shorter range.</Note>
      )}
      {now.rows.length === 0 ? (
        <Empty title="No job was billed in this range." text="Choose another range." />
      ) : (
        <Section title="By package">
          <OrderedTable
            caption="Figures by package"
            locale={locale}
            columns={[
              { key: "packages", header: "Package" },
              { key: "jobs", header: "Jobs", kind: "figure" },
              { key: "net", header: "Billed", kind: "money" },
              { key: "parts", header: "Parts cost", kind: "money" },
              { key: "hour", header: "Left an hour", kind: "money" },
              { key: "was", header: "The range before", kind: "money" },
              { key: "time", header: "Taken of planned", align: "end" },
              { key: "rides", header: "Rides", kind: "figure" },
              { key: "comebacks", header: "Comebacks", kind: "figure" },
            ]}
            rows={now.packages.map((one) => {
              const was = beforeOf(one.packages);
              const [hour, wasHour] = [anHour(one), was ? anHour(was) : null];
              return {
                id: one.packages,
                href: `/s/${slug}/figures/packages${figuresQuery({ range: asked.range, from: asked.from, to: asked.to, package: one.packages })}`,
                packages: one.packages,
                jobs: one.jobs,
                net: money(one.netMinor),
                parts: money(one.partsMinor),
                hour: hour === null ? null : money(hour),
                was: wasHour === null ? null : money(wasHour),
                time: over(one),
                rides: one.rides,
                comebacks: one.comebacks,
              };
            })}
          />
        </Section>
      )}
      {chosen && (
        <Section title={`Jobs of ${chosen.packages}`}>
          <OrderedTable
            caption={`Jobs of ${chosen.packages}`}
            locale={locale}
            columns={[
              { key: "job", header: "Job" },
              { key: "net", header: "Billed", kind: "money" },
              { key: "parts", header: "Parts cost", kind: "money" },
              { key: "planned", header: "Planned, min", kind: "figure" },
              { key: "took", header: "Taken, min", kind: "figure" },
              { key: "rides", header: "Rides", kind: "figure" },
              { key: "comebacks", header: "Comebacks", kind: "figure" },
            ]}
            rows={jobs.map((job) => ({
              id: String(job.id),
              href: `/s/${slug}/jobs/${job.id}`,
              job: { text: `Job ${job.number}`, sub: job.title },
              net: money(job.netMinor),
              parts: money(job.partsMinor),
              planned: job.plannedMinutes,
              took: job.tookMinutes,
              rides: job.rides,
              comebacks: job.comebacks,
            }))}
          />
          <Facts
            rows={[
              { name: "Billed", value: moneyText(chosen.netMinor, currency, locale, true), mono: true },
              { name: "Parts cost", value: moneyText(chosen.partsMinor, currency, locale, true), mono: true },
              {
                name: "Left after parts",
                value: moneyText(left(chosen), currency, locale, true),
                strong: true,
              },
            ]}
          />
        </Section>
      )}
      <p className="max-w-prose text-[15px] text-soft">
        Billed: the net of documents issued in the range for jobs of the package, less credits. Parts cost:
        what those jobs took from stock, at what it cost as it went out. Left an hour: billed less parts, for
        each hour that was taken on the jobs, whenever that was. Planned and taken are of the whole job; a job
        of several packages stands under all their names together.
      </p>
    </>
  );
}
