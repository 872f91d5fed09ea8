import { DataTable } from "@/app/_ui/DataTable";
import { minutesText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { words } from "@/app/_ui/words";
import { rangesFor } from "@/lib/data/figures/ranges";
import { type SoldHours, soldHoursIn } from "@/lib/data/figures/soldHours";
import { open } from "@/lib/gate/open";
import { FiguresQuery } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";
import { MonthColumns } from "../MonthColumns";
import { figuresQuery } from "../query";

const hours = (minutes: number) =>
  `${minutes < 0 ? "-" : ""}${minutesText(Math.abs(minutes), words.minutes, words.hours)}`;
const share = (part: number, whole: number) => (whole > 0 ? `${Math.round((part / whole) * 100)} %` : "–");

/** Hours sold against hours taken and present, by month, against the range before. */
export default async function HoursSold({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("figures.read", slug);
  const asked = FiguresQuery.parse(await searchParams);
  const ranges = await rangesFor(shop, asked);
  const [now, before] = await Promise.all([
    soldHoursIn(shop, ranges.range, ranges.zone),
    soldHoursIn(shop, ranges.before, ranges.zone),
  ]);
  const { locale } = shop.settings;
  const line = (id: string, name: string, of: (figures: SoldHours) => string, href?: string) => ({
    id,
    ...(href ? { href } : {}),
    name,
    now: of(now),
    before: of(before),
  });
  const { from, to } = ranges.range;
  const documents = `/s/${slug}/figures/revenue/documents${figuresQuery({ range: "own", from, to, kind: "labour" })}`;
  return (
    <>
      <FiguresHead shop={shop} title="Hours sold" room="hours" asked={asked} ranges={ranges} csv="hours" />
      <Section title="Sold against present">
        <DataTable
          caption="Hours sold against present"
          locale={locale}
          columns={[
            { key: "name", header: "Hours" },
            { key: "now", header: "This range", align: "end" },
            { key: "before", header: "The range before", align: "end" },
          ]}
          rows={[
            line("sold", "Sold", (one) => hours(one.soldMinutes), documents),
            line("took", "Taken on jobs", (one) => hours(one.tookMinutes)),
            line("present", "Present", (one) => hours(one.presentMinutes)),
            line("share", "Sold of present", (one) => share(one.soldMinutes, one.presentMinutes)),
            line("billed", "Sold of taken", (one) => share(one.soldMinutes, one.tookMinutes)),
          ]}
        />
      </Section>
      <Section title="By month, in hours">
        <MonthColumns
          title="Hours sold each month, against hours present"
          description="One column a month: hours sold in brass, hours present as an outline behind it."
          locale={locale}
          months={now.months.map((one) => ({
            month: one.month,
            value: one.soldMinutes / 60,
            behind: one.presentMinutes / 60,
          }))}
          say={(value) => String(Math.round(value))}
          table={{
            head: ["Month", "Sold", "Taken on jobs", "Present", "Sold of present"],
            rows: now.months.map((one) => [
              one.month,
              hours(one.soldMinutes),
              hours(one.tookMinutes),
              hours(one.presentMinutes),
              share(one.soldMinutes, one.presentMinutes),
            ]),
          }}
        />
      </Section>
      <p className="max-w-prose text-[15px] text-soft">
        Sold: minutes billed as labour by the hour on invoices issued in the range, less credits; a work at a
        fixed price counts none. Taken: time on jobs that was begun in the range and has ended. Present: the
        weekly hours of those who work on bikes, as they are today, up to today, less closures and absences.
      </p>
    </>
  );
}
