import { settled } from "@/lib/data/quotes/write";
import { readDyno } from "@/lib/domain/bench/dynoReading";
import { mapColumns } from "@/lib/domain/bench/logColumns";
import { checkRecipe } from "@/lib/domain/packages/check";
import { choose } from "@/lib/domain/packages/choose";
import { lacks } from "@/lib/domain/packages/supplies";
import { planWork } from "@/lib/domain/plan/planWork";
import { demandSize, typedValues } from "@/lib/gate/formData";
import { parseCsv } from "@/lib/schemas/csv";
import { formObject } from "@/lib/schemas/formObject";
import { DYNO_COLUMNS } from "@/lib/schemas/logColumns";
import { EmailField } from "@/lib/schemas/people";
import { longestWithin, type Row, rowOf, timed } from "./floor";
import { drawnWork, freePairs, tangled } from "./hardRecipes";
import { hardSides } from "./hardWork";

const GOAL = longestWithin(50);
const LARGE = 4_900_000;

/** A refusal is an answer like any other here. */
const tried = (run: () => unknown) => () => {
  try {
    run();
  } catch {
    // What it says is for the tests.
  }
};

const manyFields = () => {
  const data = new FormData();
  for (let n = 0; n < 40_000; n++) data.append("part[]", "x".repeat(60));
  return data;
};

const dynoRows = Array.from({ length: 50_000 }, (_, n) => ({
  rpm: 2000 + (n % 5000),
  powerW: null,
  torqueNm: 30,
  lambda: null,
  temperatureK: null,
  pressurePa: null,
  humidity: null,
  run: n < 25_000 ? "before" : "after",
}));
const dynoTerms = { standard: "none" as const, after: [], lowRpm: null, highRpm: null };

/** How long the hardest known inputs hold the event loop: the median and the longest of a few runs. */
export async function blockRows(): Promise<Row[]> {
  const fields = manyFields();
  const [pairs, tangle] = [freePairs(28), tangled(7)];
  const every = pairs.options.map((o) => o.key);
  const parts = Array.from({ length: 9000 }, (_, n) => ({
    kind: "part" as const,
    code: `P${n}`,
    quantityMilli: 1,
  }));
  const needy = pairs.options.map((o, n) => ({ ...o, parts: parts.slice(n * 150, (n + 1) * 150) }));
  const attacks: readonly (readonly [string, () => unknown])[] = [
    ["form of 40,000 fields of one name, read", () => formObject(fields)],
    [
      "the same, measured and sent back",
      () => [tried(() => demandSize(fields, "typed"))(), typedValues(fields)],
    ],
    ["address of 5 MB of dots", () => EmailField.safeParse(`a@${".".repeat(LARGE)} @`)],
    ["package with 28 free pairs, checked", () => checkRecipe(pairs)],
    ["package of 60 options and 120 rules, checked", () => checkRecipe(tangle)],
    ["60 ticks settled", () => settled(pairs, every, "", {})],
    ["what follows from 30 ticks", () => choose(pairs, every.slice(0, 30), {})],
    [
      "9,000 parts looked for among none",
      () => lacks({ options: needy, operations: [] }, { codes: [], families: [], grades: [] }),
    ],
    ["log of 5 MB of commas", tried(() => parseCsv(`${",".repeat(LARGE)}\n1,2`))],
    ["log of 5 MB of line ends", tried(() => parseCsv(`a,b${"\n".repeat(LARGE)}1,2`))],
    ["a million headings", tried(() => mapColumns(DYNO_COLUMNS, Array(1_000_000).fill("Speed"), {}))],
    ["dyno file of 50,000 rows in two runs", () => readDyno(dynoRows, dynoTerms)],
    ["plan of 16 operations, hardest found", () => planWork(hardSides().operations, hardSides().accesses)],
    ...[
      [18, 16, 30],
      [30, 16, 20],
      [52, 30, 60],
      [52, 60, 500],
      [120, 16, 20],
      [120, 60, 500],
    ].map(([count = 0, accesses = 0, exclusions = 0]) => {
      const hard = drawnWork(count, accesses, exclusions);
      return [
        `plan of ${count} operations over ${accesses} accesses, ${exclusions} pairs apart`,
        () => planWork(hard.operations, hard.accesses),
      ] as const;
    }),
  ];
  const rows: Row[] = [];
  for (const [work, run] of attacks) {
    rows.push(rowOf(`block: ${work}`, await timed(run, 9, 2), GOAL));
  }
  return rows;
}
