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

/** Ways of writing a part's kind in English, Norwegian and German, marks and case left out: common practice, no source. */
export const KIND_WAYS = ways<ImportPartKind>({
  jet: "jets|main jet|pilot jet|needle jet|air jet|dyse|dyser|hoveddyse|hoveddyser|tomgangsdyse|pilotdyse|naledyse|luftdyse|duse|dusen|hauptduse|leerlaufduse|nadelduse",
  needle: "needles|jet needle|nal|naler|dysenal|nadel|dusennadel",
  spring: "springs|fjaer|fjaerer|stempelfjaer|feder",
  filter: "filters|luftfilter|bensinfilter|filtre|kraftstofffilter",
  screw:
    "screws|bolt|bolts|fastener|skrue|skruer|blandeskrue|luftskrue|bolter|schraube|schrauben|gemischschraube",
  hose: "hoses|tube|tubing|slange|slanger|bensinslange|vakuumslange|schlauch",
  seal: "seals|o-ring|o-rings|gasket|gaskets|pakning|pakninger|tetning|pakningssett|dichtung|dichtsatz",
  chemical: "chemicals|fluid|cleaner|lubricant|kjemi|rens|forgasserrens|olje|fett|reiniger|chemie",
  other: "misc|diverse|annet|ovrig|sonstiges",
});

/** Ways of writing a unit, with how many of the kept unit one of them is (SI prefixes). */
export const UNIT_WAYS: Readonly<Record<string, { readonly unit: ImportPartUnit; readonly times: number }>> =
  Object.fromEntries(
    (
      [
        ["each", 1, "each ea pc pcs piece pieces stk stykk stuck st"],
        ["ml", 1, "ml milliliter"],
        ["ml", 10, "cl"],
        ["ml", 100, "dl"],
        ["ml", 1000, "l litre liter"],
        ["mm", 1, "mm millimeter"],
        ["mm", 10, "cm centimeter"],
        ["mm", 1000, "m metre meter"],
        ["g", 1, "g gram gramm"],
        ["g", 1000, "kg kilo kilogram"],
      ] as const
    ).flatMap(([unit, times, said]) => said.split(" ").map((way) => [way, { unit, times }])),
  );

export const CONVENTION_WAYS = ways<"bore" | "flow">({
  bore: "1/100 mm|0.01 mm|mm|boring|hundredels mm|hundredel|bohrung",
  flow: "rated flow|cc/min|ml/min|gjennomstromning|durchfluss",
});

export const YES_NO_WAYS = ways<"yes" | "no">({
  yes: "y|true|1|x|ja|j|sann|bedrift|firma|wahr",
  no: "n|false|0|nei|nein|usann|privat|falsch",
});

export const TYPE_WAYS = ways<"constant vacuum" | "mechanical slide">({
  "constant vacuum":
    "cv|vacuum|constant velocity|constant depression|vakuum|vakuumforgasser|undertrykk|konstant vakuum|gleichdruck|gleichdruckvergaser|unterdruck",
  "mechanical slide":
    "slide|mechanical|flat slide|flatslide|round slide|mekanisk|slid|slidforgasser|mekanisk slid|flatslid|rundslid|schieber|schiebervergaser|flachschieber|rundschieber",
});
