import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Figure } from "@/app/_ui/Figure";
import { figureText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { cardBench } from "@/lib/data/bench/cardBench";
import { cardName } from "@/lib/data/bikes/cardName";
import { listLessons } from "@/lib/data/bikes/lessons";
import { getModelCard } from "@/lib/data/bikes/modelCards";
import { wearOnCard } from "@/lib/data/bikes/wear";
import { Refusal } from "@/lib/domain/refusal";
import { FACT_GROUPS, MODEL_FACTS } from "@/lib/domain/tuning/modelFacts";
import { wear } from "@/lib/domain/tuning/wear";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { Learned } from "../../Learned";
import { Narrower } from "../../Narrower";
import { Lessons } from "./Lessons";
import { Wear } from "./Wear";

type Card = NonNullable<Awaited<ReturnType<typeof getModelCard>>>;

export default async function ModelCardPage({ params }: { params: Promise<{ shop: string; card: string }> }) {
  const { shop: slug, card: id } = await params;
  const shop = await open("bike.read", slug);
  const card = await getModelCard(shop, pathId(id));
  if (!card) notFound();
  const [bench, worn, lessons] = await Promise.all([
    benchOf(shop, card.id),
    wearOnCard(shop, card.id),
    listLessons(shop, card.id),
  ]);
  const { locale, units } = shop.settings;
  const change = shop.can("card.write") && (
    <LinkButton href={`/s/${slug}/bikes/cards/${card.id}/edit`}>Change</LinkButton>
  );
  const groups = FACT_GROUPS.map((group) => ({ group, rows: factRows(card, group, locale) })).filter(
    ({ rows }) => rows.length > 0,
  );
  return (
    <>
      <PageHead of={shop.name} title={cardName(card)} sub={card.carburettorType} actions={change} />
      <div className="gap-x-10 lg:columns-2">
        <Section title="Model" className="break-inside-avoid">
          <Facts
            rows={[
              {
                name: "Displacement",
                value: <Figure value={card.displacementCc} unit="cc" locale={locale} />,
              },
              { name: "Cylinders", value: card.cylinders, mono: true },
              { name: "Carburettors", value: card.carburettors, mono: true },
              ...[
                { name: "Main jets from", value: card.mainFamily },
                { name: "Pilot jets from", value: card.pilotFamily },
              ].filter(({ value }) => value !== ""),
              ...(card.serviceKm === null
                ? []
                : [
                    {
                      name: "Service every",
                      value: (
                        <Figure
                          value={shownDistance(card.serviceKm, units)}
                          unit={distanceUnit(units)}
                          locale={locale}
                        />
                      ),
                    },
                  ]),
              ...(card.serviceMonths === null
                ? []
                : [
                    {
                      name: "And at least every",
                      value: <Figure value={card.serviceMonths} unit="months" locale={locale} />,
                    },
                  ]),
            ]}
          />
        </Section>
        {groups.map(({ group, rows }) => (
          <Section key={group} title={group} className="break-inside-avoid">
            <Facts rows={rows} />
          </Section>
        ))}
      </div>
      {groups.length === 0 && (
        <Empty
          title="No facts are kept yet."
          text="Without jets, needle and geometry, settings are computed from stated assumptions and are less sure."
          action={change}
        />
      )}
      {card.notes && (
        <Section title="Notes">
          <p className="max-w-prose whitespace-pre-line">{card.notes}</p>
        </Section>
      )}
      {bench && shop.can("bench.use") && (
        <Section title="How sure its sums are">
          {"trouble" in bench ? (
            <p className="text-[15px]">{bench.trouble}</p>
          ) : (
            <Narrower state={bench.state} air={bench.air} taught={bench.taught} locale={locale} />
          )}
          <p className="mb-2 max-w-prose text-[14px] text-soft">
            Told for a 48 mm airbox opening on the delivered settings, a thousand metres above the shop.
          </p>
          {!("trouble" in bench) && <Learned calibration={bench.calibration} locale={locale} />}
        </Section>
      )}
      <Lessons
        lessons={lessons}
        slug={slug}
        locale={locale}
        zone={shop.settings.zone}
        mayJudge={shop.can("card.write")}
      />
      <Wear own={ownWear(card)} bikes={worn} slug={slug} locale={locale} />
      {shop.can("photo.read") && (
        <p className="mb-6">
          <LinkButton href={`/s/${slug}/bench/observing/pairs?card=${card.id}`}>Photos in pairs</LinkButton>
        </p>
      )}
      <Section title="Bikes on this card">
        {card.bikes.length === 0 && <p className="text-soft">None yet.</p>}
        <ul className="grid gap-x-8 sm:grid-cols-2">
          {card.bikes.map((bike) => (
            <li key={bike.id} className="border-hair border-b">
              <Link
                href={`/s/${slug}/bikes/${bike.id}`}
                className="flex min-h-12 items-center justify-between gap-4 no-underline hover:bg-sheet"
              >
                <span>{[bike.customer.name, bike.year].filter(Boolean).join(", ")}</span>
                <span className="font-mono">{bike.plate}</span>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}

/** The card on the bench; in words where its facts cannot be together. */
async function benchOf(shop: OpenShop, cardId: number) {
  try {
    return await cardBench(shop, cardId);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { trouble: `${cause.message} ${cause.remedy}` };
  }
}

/** Wear of the parts the card itself was measured from: only a measured bore can be held against its limit. */
function ownWear(card: Card) {
  const fact = (key: string) => card.facts.find((each) => each.key === key);
  const limit = fact("needleJetWearMm")?.value;
  if (limit === null || limit === undefined) return [];
  const bore = fact("needleJetMm");
  return [wear("Needle jet bore", "mm", limit, bore?.how === "measured" ? bore.value : null, true)];
}

/** The known facts of a group: value, how it is known, and the note under the name. */
function factRows(card: Card, group: string, locale: string) {
  return MODEL_FACTS.filter((def) => def.group === group).flatMap((def) => {
    const fact = card.facts.find((each) => each.key === def.key);
    if (!fact) return [];
    const choice = def.choices?.find((each) => each.value === fact.text)?.name;
    return [
      {
        key: def.key,
        name: (
          <>
            {def.name}
            {fact.note && <span className="block text-[14px] text-soft">{fact.note}</span>}
          </>
        ),
        value: (
          <>
            <span className={choice ? "" : "font-mono"}>
              {choice ?? `${figureText(fact.value ?? 0, locale)}${def.unit && ` ${def.unit}`}`}
            </span>{" "}
            <span className="text-[13px] text-soft">{fact.how}</span>
          </>
        ),
      },
    ];
  });
}
