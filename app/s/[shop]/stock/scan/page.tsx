import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { ScanField } from "@/app/_ui/ScanField";
import { Section } from "@/app/_ui/Section";
import { oneTaps, tapOf } from "@/lib/data/jobs/takePart";
import { findScanned, reservationsOf } from "@/lib/data/stock/find";
import { fetchOrder } from "@/lib/domain/stock/bins";
import { open } from "@/lib/gate/open";
import { fetchText } from "@/lib/schemas/bins";
import { amountText } from "../amount";
import { OneTap } from "../OneTap";
import { StockMenu } from "../StockMenu";
import { tapShown } from "../tap";
import { TapActs } from "./TapActs";

export default async function ScanPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const { code } = await searchParams;
  const asked = typeof code === "string" ? code.slice(0, 120) : "";
  const shop = await open("stock.read", slug);
  const found = await findScanned(shop, asked);
  const [only] = found;
  const part = found.length === 1 ? only : undefined;
  const mayUse = shop.can("stock.use");
  const [taps, reservations] = await Promise.all([
    mayUse ? oneTaps(shop, found) : null,
    part && mayUse ? reservationsOf(shop, part.id) : [],
  ]);
  const { locale } = shop.settings;
  return (
    <>
      <PageHead of={shop.name} title="Scan" />
      <StockMenu shop={slug} here="/scan" />
      <div className="max-w-[40rem]">
        <ScanField key={asked} path={`/s/${slug}/stock/scan`} />
        {part && (
          <Section title="Found">
            <Link
              href={`/s/${slug}/stock/${part.id}`}
              className="inline-flex min-h-8 items-center font-mono font-semibold text-xl pointer-coarse:min-h-12"
            >
              {part.code}
            </Link>
            <p>{part.name}</p>
            <p className="mb-4 text-soft">
              <span className="font-mono">{amountText(part.onHandMilli, part.unit, locale)}</span> on hand,{" "}
              <span className="font-mono">
                {amountText(part.onHandMilli - part.reservedMilli, part.unit, locale)}
              </span>{" "}
              free
              {part.onOrderMilli > 0 && `, ${amountText(part.onOrderMilli, part.unit, locale)} on order`}
              {(fetchText(part) || part.bin) && `; ${fetchText(part) || `bin ${part.bin}`}`}
            </p>
            <TapActs
              shop={slug}
              partId={part.id}
              unit={part.unit}
              code={part.code}
              free={part.onHandMilli > part.reservedMilli}
              mayUse={mayUse}
              mayWrite={shop.can("stock.write")}
              bins={fetchOrder(part.bins, part.bin).map((one) => one.bin)}
              taps={[
                ...(taps?.get(part.id) ?? []),
                ...reservations
                  .filter((row) => row.job.state === "waiting" || row.job.state === "booked")
                  .map((row) => reserved(part, row)),
              ].map((tap) => tapShown(tap, part.unit, locale))}
            />
          </Section>
        )}
        {found.length > 1 && (
          <Section title="Which of these">
            <ul>
              {found.map((each) => (
                <li key={each.id} className="border-hair border-b py-1.5">
                  <div className="flex items-baseline gap-x-4">
                    <Link
                      href={`/s/${slug}/stock/scan?code=${encodeURIComponent(each.code)}`}
                      className="inline-flex min-h-8 items-center font-mono font-semibold pointer-coarse:min-h-12"
                    >
                      {each.code}
                    </Link>
                    <span className="min-w-0 flex-1">{each.name}</span>
                    <span className="font-mono">{amountText(each.onHandMilli, each.unit, locale)}</span>
                  </div>
                  {taps?.get(each.id)?.map((tap) => (
                    <div key={`${tap.jobId} ${tap.reservationId}`} className="my-2">
                      <OneTap
                        shop={slug}
                        partId={each.id}
                        code={each.code}
                        tap={tapShown(tap, each.unit, locale)}
                      />
                    </div>
                  ))}
                </li>
              ))}
            </ul>
          </Section>
        )}
        {asked !== "" && found.length === 0 && (
          <Empty
            title={`Nothing is known as ${asked}.`}
            text="Scan it once more, or type the code, the size or a word of its name."
          />
        )}
      </div>
    </>
  );
}

/** A reservation for a job that is not in work yet, for the parts laid out beforehand. */
function reserved(
  part: { id: number; unit: string },
  row: Awaited<ReturnType<typeof reservationsOf>>[number],
) {
  return {
    partId: part.id,
    jobId: row.job.id,
    job: row.job.number,
    title: row.job.title,
    reservationId: row.id,
    quantityMilli: tapOf(part.unit, row.reservedMilli),
  };
}
