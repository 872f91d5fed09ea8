import { quoteFacts } from "@/lib/data/quotes/facts";
import { presetChoice } from "@/lib/domain/packages/choose";
import type { Access, Operation, Recipe } from "@/lib/domain/packages/recipe";
import { planWork } from "@/lib/domain/plan/planWork";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { OPENED, PLAIN_AIR } from "../domain/tuning-demo";
import { BREATHING, readyToQuote } from "../support/quotes";
import { preparedShop } from "./benchShops";
import { medianWithin, type Row, rowOf, timed } from "./floor";
import { hardClique, hardSides } from "./hardWork";

/** Sixteen operations over eight accesses, two of which exclude each other: like a full breathing package. */
function sixteen(): { operations: Operation[]; accesses: Access[] } {
  const key = (n: number) => `a${n}`;
  const accesses = Array.from({ length: 8 }, (_, n) => ({
    key: key(n),
    name: key(n),
    openMinutes: 3 + n,
    closeMinutes: 4 + n,
    needs: n === 0 ? [] : [key(0)],
    excludes: n === 1 ? [key(2)] : n === 2 ? [key(1)] : [],
    closingChecks: [],
    cautions: [],
    tools: [],
  }));
  const operations = Array.from({ length: 16 }, (_, n) => ({
    key: `o${n}`,
    name: `o${n}`,
    instruction: "",
    minutes: 5 + n,
    grade: "workshop",
    accesses: [key(n % 8)],
    after: n > 8 ? [`o${n - 8}`] : [],
    parts: [],
    holdPoints: [],
    inspects: [],
    cautions: [],
    tools: [],
  }));
  return { operations, accesses };
}

/** A quote of a full size: twelve operations in twelve options, and with its work, parts and lines by hand thirty lines. */
function full(): Recipe {
  const { operations, accesses } = sixteen();
  const own = operations.slice(0, 12).map((o) => ({ ...o, after: [] }));
  const parts = [{ kind: "part" as const, code: "BF-20", quantityMilli: 1000 }];
  const [main] = BREATHING.options.filter((o) => o.key === "main");
  const more = own.map((o, n) => ({
    key: `x${n}`,
    group: "all",
    name: o.name,
    plain: "",
    operations: [o.key],
    parts: n === 0 ? parts : [],
    changes: n === 0 && main ? main.changes : [],
    cautions: [],
    preset: true,
    roadUse: false,
    ...(n > 5 ? { fixedPriceMinor: 4_500 } : {}),
  }));
  const groups = [{ key: "all", name: "All", choose: "any" as const }];
  return { ...BREATHING, groups, options: more, operations: own, accesses, rules: [] };
}

const TERMS = {
  lines: Array.from({ length: 20 }, (_, n) => ({
    key: `hand-${n}`,
    kind: n % 2 === 0 ? "outside" : "text",
    name: `Line ${n}`,
    priceMinor: 1000 + n,
    costMinor: 500,
  })),
  discount: { kind: "percent", bp: 500, why: "agreed" },
};

export async function domainRows(): Promise<Row[]> {
  const shop = await preparedShop("bench_domain");
  const { bikeId } = await readyToQuote(shop, 10);
  const recipe = full();
  const facts = await quoteFacts(shop.read, {
    now: shop.now,
    bikeId,
    works: [{ key: "", kind: "package", name: "Full", recipe }],
    choices: presetChoice(recipe, {}),
    terms: TERMS,
    conditions: { altitudeM: 410, season: "spring", temperatureC: null, humidityPercent: null },
  });
  const { operations, accesses } = sixteen();
  const [sides, clique] = [hardSides(), hardClique()];
  const [carburettor] = targetSettings(OPENED).carburettors;
  if (!carburettor) throw new Error("The bench input has a carburettor.");
  return [
    rowOf(
      "quote of 30 lines and 12 operations: rules, plan, settings and price",
      await timed(() => computeQuote(facts), 300),
      medianWithin(2),
    ),
    rowOf(
      "work plan of 16 operations, exact",
      await timed(() => planWork(operations, accesses), 60),
      medianWithin(50),
    ),
    rowOf(
      "the same, hardest found: eight pairs of sides",
      await timed(() => planWork(sides.operations, sides.accesses), 40),
      medianWithin(50),
    ),
    rowOf(
      "the same, hardest found: fifteen that all exclude one another",
      await timed(() => planWork(clique.operations, clique.accesses), 40),
      medianWithin(50),
    ),
    rowOf(
      "full inverse with discrete choice",
      await timed(() => targetSettings(OPENED), 300),
      medianWithin(5),
    ),
    rowOf(
      "fuel curve of 50 points",
      await timed(() => fuelCurve(carburettor.after, PLAIN_AIR, 50), 300),
      medianWithin(1),
    ),
  ];
}
