export type ImportPartKind =
  | "jet"
  | "needle"
  | "spring"
  | "filter"
  | "screw"
  | "hose"
  | "seal"
  | "chemical"
  | "other";
export type ImportPartUnit = "each" | "ml" | "mm" | "g";

const ways = <T extends string>(table: Readonly<Record<T, string>>): Readonly<Record<string, T>> =>
  Object.fromEntries(
    (Object.entries(table) as [T, string][]).flatMap(([word, others]) =>
      [word, ...others.split("|")].map((way) => [way, word]),
    ),
  );

/** Ways of writing a part's kind. Judgement. */
export const KIND_WAYS = ways<ImportPartKind>({
  jet: "jets|main jet|pilot jet|dyse|dyser",
  needle: "needles|jet needle|nal",
  spring: "springs|fjaer",
  filter: "filters",
  screw: "screws|bolt|bolts|fastener|skrue",
  hose: "hoses|tube|tubing|slange",
  seal: "seals|o-ring|o-rings|gasket|gaskets|pakning",
  chemical: "chemicals|fluid|cleaner|lubricant|kjemi",
  other: "misc|diverse|annet",
});

/** Ways of writing a unit, with how many of the kept unit one of them is (SI prefixes). */
export const UNIT_WAYS: Readonly<Record<string, { readonly unit: ImportPartUnit; readonly times: number }>> =
  {
    each: { unit: "each", times: 1 },
    ea: { unit: "each", times: 1 },
    pc: { unit: "each", times: 1 },
    pcs: { unit: "each", times: 1 },
    piece: { unit: "each", times: 1 },
    pieces: { unit: "each", times: 1 },
    stk: { unit: "each", times: 1 },
    ml: { unit: "ml", times: 1 },
    cl: { unit: "ml", times: 10 },
    l: { unit: "ml", times: 1000 },
    litre: { unit: "ml", times: 1000 },
    mm: { unit: "mm", times: 1 },
    cm: { unit: "mm", times: 10 },
    m: { unit: "mm", times: 1000 },
    metre: { unit: "mm", times: 1000 },
    g: { unit: "g", times: 1 },
    gram: { unit: "g", times: 1 },
    kg: { unit: "g", times: 1000 },
  };

export const CONVENTION_WAYS = ways<"bore" | "flow">({
  bore: "1/100 mm|0.01 mm|mm",
  flow: "rated flow|cc/min|ml/min",
});

export const YES_NO_WAYS = ways<"yes" | "no">({ yes: "y|true|1|x|ja|j", no: "n|false|0|nei|nein" });

export const TYPE_WAYS = ways<"constant vacuum" | "mechanical slide">({
  "constant vacuum": "cv|vacuum|constant velocity|constant depression",
  "mechanical slide": "slide|mechanical|flat slide|flatslide|round slide",
});
