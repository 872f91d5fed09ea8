import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { pickBikes } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { compareNeedles, needlesAt } from "@/lib/domain/bench/needlePair";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { NEEDLE_FIELDS } from "@/lib/schemas/benchPartFields";
import { idIn } from "@/lib/schemas/ids";
import { askedBike, onlyBike } from "../askedBike";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { BikeChoice } from "../BikeChoice";
import { workBench } from "../workBench";
import { NeedlesAnswer } from "./NeedlesAnswer";
import { needleExample, pairOf } from "./pair";

export default async function Needles({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { locale } = shop.settings;
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const id = askedBike(asked);
  const [bike, bikes] = await Promise.all([
    id === null ? null : benchBike(shop, id),
    pickBikes(shop, "", MOST_NEWEST),
  ]);
  const place = bike?.carburettors.find((one) => one.position === idIn(asked.c)) ?? bike?.carburettors[0];
  const { c: _, ...typed } = asked;
  const query = onlyBike(typed) ? needleExample(bike, system, place?.position) : asked;
  const work = workBench(NEEDLE_FIELDS, system, query, (v) => {
    const pair = pairOf(v);
    return { pair, at: v.at, points: compareNeedles(pair), inJet: needlesAt(pair, v.at) };
  });
  const names = (which: "a" | "b") =>
    (["straight", "lift", "length1", "angle1", "length2", "angle2", "clip", "stations"] as const).map(
      (n) => `${which}_${n}` as const,
    );
  return (
    <>
      <PageHead of={shop.name} title="Needle against needle" sub="Bench" />
      <BikeChoice
        path={`/s/${slug}/bench/needles`}
        slug={slug}
        newest={bikes.rows}
        bike={bike}
        fills={
          place?.needle
            ? "the first needle is its own as recorded, the second the model card's where it has one"
            : "the first needle is its model card's, where that has one: nobody recorded its own"
        }
      />
      {bike && bike.carburettors.length > 1 && (
        <p className="mb-4 flex flex-wrap gap-3 print:hidden">
          {bike.carburettors.map((c) => (
            <LinkButton
              key={c.position}
              href={`/s/${slug}/bench/needles?bike=${bike.id}&c=${c.position}`}
              tone="quiet"
            >
              {c === place ? `${c.name}, shown` : c.name}
            </LinkButton>
          ))}
        </p>
      )}
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={`/s/${slug}/bench/needles`}
            specs={NEEDLE_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            hidden={bike ? { bike: String(bike.id) } : undefined}
            groups={[
              {
                title: "Carburettor",
                names: ["needleJet", "mainJet", "convention", "full", "at", "grooveStep"],
              },
              { title: "First needle", names: names("a") },
              { title: "Second needle", names: names("b") },
            ]}
          />
        }
      >
        {work.answer && <NeedlesAnswer {...work.answer} locale={locale} />}
      </BenchColumns>
    </>
  );
}
