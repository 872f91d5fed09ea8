import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Figure } from "@/app/_ui/Figure";
import { Link } from "@/app/_ui/Link";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { quoteFigures } from "@/lib/data/figures/quotes";
import type { WinLine } from "@/lib/data/figures/winRate";
import { open } from "@/lib/gate/open";
import { Comebacks } from "./Comebacks";
import { MonthBars } from "./MonthBars";
import { Rooms } from "./Rooms";

const COLUMNS: readonly TableColumn[] = [
  { key: "package", header: "Package" },
  { key: "sent", header: "Sent", kind: "figure" },
  { key: "won", header: "Won", kind: "figure" },
  { key: "lost", header: "Lost or run out", kind: "figure" },
  { key: "open", header: "Waiting", kind: "figure" },
  { key: "rate", header: "Win rate", kind: "figure" },
  { key: "value", header: "Value won", kind: "money" },
];

const percent = (share: number) => `${Math.round(share * 100)} %`;
/** A rate with its likely range: with few quotes the range is wide, and says so. */
const rateText = ({ rate, low, high }: WinLine) =>
  rate === null || low === null || high === null
    ? "–"
    : `${percent(rate)}, ${percent(low)} to ${percent(high)}`;

/** Figures, first page: which quotes are won, by month and by package, over twelve months. */
export default async function Figures({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("figures.read", slug);
  const figures = await quoteFigures(shop);
  const { currency, locale } = shop.settings;
  const { whole } = figures;
  if (whole.sent === 0)
    return (
      <>
        <PageHead of={shop.name} title="Figures" />
        <Rooms shop={shop} room="" />
        <Empty
          title="Nothing to count yet."
          text="Once quotes have been sent, what becomes of them stands here by month and by package."
        />
        <Comebacks shop={shop} />
      </>
    );
  return (
    <>
      <PageHead of={shop.name} title="Figures" sub={`${whole.sent} quotes sent in twelve months`} />
      <Rooms shop={shop} room="" />
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
                  from: "quotes sent in twelve months",
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
            package: line.key,
            sent: line.sent,
            won: line.won,
            lost: line.lost,
            open: line.open,
            rate: rateText(line),
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
