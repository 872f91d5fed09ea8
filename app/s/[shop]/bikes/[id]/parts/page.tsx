import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { describedParts } from "@/lib/data/bikes/describedParts";
import {
  DESCRIBED_NAMES,
  type DescribedKind,
  type DescribedPart,
  nearBreather,
} from "@/lib/domain/tuning/describedParts";
import { flowsOf } from "@/lib/domain/tuning/flowFigures";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { describePart } from "./actions";
import { PartFields } from "./PartFields";

const STATES = { found: "as found", target: "target", left: "as left" } as const;
const KINDS = Object.keys(DESCRIBED_NAMES) as DescribedKind[];

/** A filter or silencer of which nothing tells how freely it passes air. */
const uncounted = (part: DescribedPart) =>
  (part.kind === "filter" || part.kind === "silencer") && flowsOf([part]) === undefined;

/** What a sheet's single figures cannot hold: each part as it was described, the newest first. */
export default async function BikePartsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ c?: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.read", slug);
  const bike = await benchBike(shop, pathId(id));
  if (!bike) notFound();
  const { locale, zone } = shop.settings;
  const asked = askedId((await searchParams).c);
  const place = bike.carburettors.find((c) => c.position === asked) ?? bike.carburettors[0];
  const all = (await describedParts(shop.read, bike.id)).filter((one) => one.carburettor === place?.position);
  const least = bike.facts.facts.find((fact) => fact.key === "openingBreatherMm")?.value ?? null;
  const home = `/s/${slug}/bikes/${bike.id}`;
  return (
    <>
      <PageHead
        title="Parts as described"
        of={shop.name}
        sub={bike.carburettors.length > 1 ? `${bike.name}, ${place?.name}` : bike.name}
        actions={<LinkButton href={home}>The bike</LinkButton>}
      />
      {bike.carburettors.length > 1 && (
        <p className="mb-4 flex flex-wrap gap-3">
          {bike.carburettors.map((c) => (
            <LinkButton key={c.position} href={`${home}/parts?c=${c.position}`} tone="quiet">
              {c.name}
            </LinkButton>
          ))}
        </p>
      )}
      {KINDS.map((kind) => {
        const own = all.filter((one) => one.part.kind === kind);
        const now = own.find((one) => one.state !== "target");
        return (
          <Section key={kind} title={DESCRIBED_NAMES[kind]}>
            {own.length === 0 && <p className="text-soft">Nothing is written down.</p>}
            <ul>
              {own.map((one) => (
                <li key={one.id} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
                  <span className={one === now ? "font-semibold" : "text-soft"}>{one.words}</span>
                  <span className="text-[14px] text-soft">
                    {STATES[one.state]}, {instantText(one.takenAt.toISOString(), locale, zone, "date")}
                  </span>
                </li>
              ))}
            </ul>
            {now &&
              nearBreather(now.part, least).map((text) => (
                <Note key={text} title="Near the breather.">
                  {text}
                </Note>
              ))}
            {now && uncounted(now.part) && (
              <Note title="Not computed with.">
                It is kept and shown. Settings are computed with a flow only where the pressure loss that it
                was measured at is known, of this part and of the one in its place.
              </Note>
            )}
            {shop.can("sheet.write") && (
              <details className="mt-2">
                <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
                  {own.length === 0 ? "Write it down" : "Write down what it is now"}
                </summary>
                <Form
                  action={describePart}
                  shop={slug}
                  hidden={{ bikeId: String(bike.id), carburettor: String(place?.position ?? 1), kind }}
                  label={DESCRIBED_NAMES[kind]}
                  className="max-w-[520px]"
                >
                  <PartFields kind={kind} />
                  <SubmitButton>Record it</SubmitButton>
                </Form>
              </details>
            )}
          </Section>
        );
      })}
    </>
  );
}
