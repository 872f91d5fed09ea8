import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { TableFilters } from "@/app/_ui/TableFilters";
import { getBike, listBikes } from "@/lib/data/bikes/bikes";
import { openIntake } from "@/lib/data/intakes/get";
import { findingText } from "@/lib/data/jobs/findings";
import { listPackages } from "@/lib/data/packages/list";
import { askedId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { BikeQuery } from "@/lib/schemas/bikes";
import { RuleOutList } from "../../bikes/[id]/intakes/RuleOutList";
import { StartForm } from "./StartForm";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | undefined>>;
}

export default async function NewQuote({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("quote.write", slug);
  const query = await searchParams;
  const bikeId = askedId(query.bike) ?? 0;
  const bike = await getBike(shop, bikeId);
  return (
    <>
      <PageHead
        of={shop.name}
        title="New quote"
        sub={bike ? `${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}` : "Which bike?"}
      />
      {bike ? (
        <Begin shop={shop} bikeId={bikeId} job={query.job} finding={query.finding} />
      ) : (
        <ChooseBike shop={shop} query={query} />
      )}
    </>
  );
}

async function Begin({
  shop,
  bikeId,
  job,
  finding,
}: {
  shop: OpenShop;
  bikeId: number;
  job: string | undefined;
  finding: string | undefined;
}) {
  const packages = (await listPackages(shop)).filter((p) => p.active && p.published !== null);
  const intake = await openIntake(shop.read, bikeId);
  const found = job ? await findingText(shop, askedId(finding)) : null;
  return (
    <>
      {job && (
        <p className="mb-3 max-w-[40rem] text-soft">
          Extra work on a job that is running: it is added to that job once accepted.
          {found && ` It answers what was found: “${found}”. The customer sees these words with the photos.`}
        </p>
      )}
      {intake && intake.ruleOut.length > 0 && (
        <Section title="First rule out, by the bike’s intake" className="max-w-[40rem]">
          <RuleOutList ruleOut={intake.ruleOut} />
        </Section>
      )}
      <StartForm
        slug={shop.slug}
        hidden={{ bikeId: String(bikeId), variationOfId: job ?? "", findingId: job ? (finding ?? "") : "" }}
        packages={packages}
        title={(found ?? "").split("\n")[0]?.slice(0, 120) ?? ""}
      />
    </>
  );
}

async function ChooseBike({ shop, query }: { shop: OpenShop; query: Record<string, string | undefined> }) {
  const { rows } = await listBikes(shop, BikeQuery.parse(query));
  const path = `/s/${shop.slug}/quotes/new`;
  return (
    <Section title="Bikes">
      <TableFilters at={{ path, query: { q: query.q } }} search="Owner, plate, make or model" filters={[]} />
      {rows.length === 0 ? (
        <Empty
          title="No bike found."
          text="Try another word, or take the bike in first."
          action={<LinkButton href={`/s/${shop.slug}/bikes/new`}>New bike</LinkButton>}
        />
      ) : (
        <ul className="max-w-[640px]">
          {rows.map((bike) => (
            <li key={bike.id} className="border-hair border-b">
              <Link
                href={`${path}?bike=${bike.id}`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline hover:bg-sheet sm:grid-cols-[1fr_1fr_auto]"
              >
                <strong>{bike.customer.name}</strong>
                <span>
                  {bike.modelCard.make} {bike.modelCard.model}
                  {bike.year ? `, ${bike.year}` : ""}
                </span>
                <span className="font-mono text-soft">{bike.plate}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Section>
  );
}
