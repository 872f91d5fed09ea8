import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Figure } from "@/app/_ui/Figure";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { quoteFigures } from "@/lib/data/figures/quotes";
import { rangesFor } from "@/lib/data/figures/ranges";
import type { WinLine } from "@/lib/data/figures/winRate";
import { open } from "@/lib/gate/open";
import { FiguresQuery } from "@/lib/schemas/figures";
import { Comebacks } from "./Comebacks";
import { FiguresHead } from "./FiguresHead";
import { MonthBars } from "./MonthBars";
import { figuresQuery } from "./query";

const COLUMNS: readonly TableColumn[] = [
  { key: "package", header: "Package" },
  { key: "sent", header: "Sent", kind: "figure" },
  { key: "won", header: "Won", kind: "figure" },
  { key: "lost", header: "Lost or run out", kind: "figure" },
  { key: "open", header: "Waiting", kind: "figure" },
  { key: "rate", header: "Win rate", kind: "figure" },
  { key: "before", header: "The range before", kind: "figure" },
  { key: "value", header: "Value won", kind: "money" },
];

const percent = (share: number) => `${Math.round(share * 100)} %`;
/** A rate with its likely range: with few quotes the range is wide, and says so. */
const rateText = (line: WinLine | undefined) =>
  !line || line.rate === null || line.low === null || line.high === null
    ? "–"
    : `${percent(line.rate)}, ${percent(line.low)} to ${percent(line.high)}`;

/** Figures, first page: which quotes of a range are won, by month and by package, against the range before. */
export default async function Figures({
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
  const [figures, before] = await Promise.all([
    quoteFigures(shop, ranges.range),
    quoteFigures(shop, ranges.before),
  ]);
  const { currency, locale } = shop.settings;
  const { whole } = figures;
  const { from, to } = ranges.range;
  const behind = (ofPackage?: string) =>
    `/s/${slug}/figures/quotes${figuresQuery({ range: "own", from, to, package: ofPackage })}`;
  const head = <FiguresHead shop={shop} title="Figures" room="" asked={asked} ranges={ranges} />;
  if (whole.sent === 0)
    return (
      <>
        {head}
        <Empty
          title="No quote was sent in this range."
          text="Once quotes have been sent, what becomes of them stands here by month and by package."
        />
        <Comebacks shop={shop} />
      </>
    );
  return (
    <>
      {head}
      <div className="grid gap-x-8 rail:grid-cols-[minmax(0,1fr)_minmax(0,16rem)]">
        <Section title="Quotes by the month they were sent">
          <MonthBars months={figures.months} currency={currency} locale={locale} />
        </Section>
        <Section title="Won of those answered">
          {whole.rate === null ? (
            <p>None is answered yet.</p>
          ) : (
            <Opens
              name="Win rate"
              because={[
                {
                  fact: `${whole.won} won, ${whole.lost} lost or run out`,
                  from: "quotes sent in the range",
                },
                { fact: `${whole.open} still waiting`, from: "not counted yet" },
                {
                  fact: `likely ${percent(whole.low ?? 0)} to ${percent(whole.high ?? 1)}`,
                  from: "Wilson score interval, 95 %",
                },
              ]}
            >
              <Figure large value={whole.rate * 100} unit="%" locale={locale} decimals={0} />
            </Opens>
          )}
          {whole.rate !== null && (
            <p className="mt-1 text-[14px] text-soft">{`Likely ${percent(whole.low ?? 0)} to ${percent(whole.high ?? 1)}; ${whole.open} still waiting.`}</p>
          )}
          <p className="mt-1 text-[14px] text-soft">The range before: {rateText(before.whole)}.</p>
          <LinkButton tone="quiet" href={behind()}>{`${whole.sent} quotes sent`}</LinkButton>
          {figures.cut && <p className="mt-2 text-[14px] text-soft">Only the newest 10,000 are counted.</p>}
        </Section>
      </div>
      <Section title="By package">
        <DataTable
          caption="Quotes by package"
          columns={COLUMNS}
          locale={locale}
          rows={figures.packages.map((line) => ({
            id: line.key,
            href: behind(line.key),
            package: line.key,
            sent: line.sent,
            won: line.won,
            lost: line.lost,
            open: line.open,
            rate: rateText(line),
            before: rateText(before.packages.find((one) => one.key === line.key)),
            value: { minor: line.wonMinor, currency },
          }))}
        />
      </Section>
      {figures.reasons.length > 0 && (
        <Section title="Why they said no">
          <ul>
            {figures.reasons.map((r) => (
              <li key={r.id} className="border-hair border-b py-2">
                <Link
                  href={`/s/${slug}/quotes/${r.id}`}
                  className="inline-flex min-h-6 items-center font-mono text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                >
                  {r.number}
                </Link>{" "}
                {r.reason}
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Comebacks shop={shop} />
    </>
  );
}
