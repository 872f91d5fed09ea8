import { LEARNING } from "./equivalentLearning.ts";
import { MODEL } from "./equivalentModel.ts";
import { PARTS } from "./equivalentParts.ts";

/**
 * A mutant that no test can kill, because the program does the same. Found by its file in lib/domain, what stands there and
 * what the mutant puts in its place (both with white space as one space; one that ends in "…" is only begun), and `near`, a piece
 * of the line that it begins on, where those three fit more than one.
 */
export interface Equivalent {
  readonly file: string;
  readonly from: string;
  readonly to: string;
  readonly near?: string;
  /** StrykerJS's name of the kind of change; with "…" for both texts it stands for all of the kind in the file. */
  readonly mutator?: string;
  readonly why: string;
}

/** What StrykerJS puts in an empty text's place. */
const FILLED = '"Stryker was here!"';
const CACHE = "a cache: without it the same is made anew";
const THERE = "always there; only the type checker cannot know";

const NO_NUMBER = "what is undefined makes no number, and no number is beyond no limit";
const BISECTED = "halving ends at the same lift where the balance is exact";

export const EQUIVALENT: readonly Equivalent[] = [
  ...LEARNING,
  ...PARTS,
  ...MODEL,
  { file: "money/format.ts", from: "known", to: "false", why: CACHE },
  { file: "money/format.ts", from: "formats.set(key, made);", to: ";", why: CACHE },
  { file: "money/format.ts", from: "!made", to: "true", why: CACHE },
  { file: "money/format.ts", from: "plain.set(key, made);", to: ";", why: CACHE },
  {
    file: "money/format.ts",
    from: "!(error instanceof RangeError)",
    to: "false",
    why: "Intl throws nothing but RangeError for a text that is no locale; the line lets a bug through as a bug",
  },
  {
    file: "money/format.ts",
    from: "at < 0",
    to: "at <= 0",
    why: "a decimal text has a digit before its point, so that it is never at 0",
  },
  {
    file: "money/format.ts",
    from: "parts.find((p) => p.type === type)?.value",
    to: "parts.find(p => p.type === type).value",
    why: THERE,
  },
  { file: "money/format.ts", from: '""', to: FILLED, near: "const mark", why: THERE },
  {
    file: "money/inclusive.ts",
    from: "new Array<number>(amounts.length)",
    to: "new Array()",
    why: "every place is written below",
  },
  { file: "money/inclusive.ts", from: "amounts[at]?.category", to: "amounts[at].category", why: THERE },
  { file: "money/inclusive.ts", from: "amounts[at]?.rateBp", to: "amounts[at].rateBp", why: THERE },
  { file: "money/inclusive.ts", from: "members[0]?.rateBp", to: "members[0].rateBp", why: THERE },
  {
    file: "money/parse.ts",
    from: '""',
    to: FILLED,
    near: 'const [whole = ""',
    why: "split answers at least one text; the second is missing only where no mark was found, and then the digits are read alike",
  },
  {
    file: "money/parse.ts",
    from: '""',
    to: FILLED,
    near: "return",
    why: "it stands for no mark: any text that no amount holds splits nothing either",
  },
  {
    file: "money/parse.ts",
    from: 'body.lastIndexOf(",") > body.lastIndexOf(".")',
    to: 'body.lastIndexOf(",") >= body.lastIndexOf(".")',
    why: "two different signs never stand at one place",
  },
  {
    file: "money/parse.ts",
    from: "/^[-−]/u",
    to: "/[-−]/u",
    why: "an amount with a dash elsewhere than in front is refused",
  },
  {
    file: "money/parse.ts",
    from: '"0"',
    to: '""',
    why: 'decimal.js reads "5." and ".5" as it reads "5.0" and "0.5"',
  },
  {
    file: "tax/numbers.ts",
    from: "Number(text) < 10_000_000",
    to: "Number(text) <= 10_000_000",
    why: "10 000 000 has a wrong check digit (it would be 9)",
  },
  {
    file: "tax/numbers.ts",
    from: "Number(text) > 200_000_000",
    to: "Number(text) >= 200_000_000",
    why: "200 000 000 has a wrong check digit (it would be 5)",
  },
  { file: "tax/numbers.ts", from: "/^$/u", to: "/$/u", why: "it strips nothing either way" },
  { file: "tax/numbers.ts", from: "/^$/u", to: "/^/u", why: "it strips nothing either way" },
  {
    file: "tax/requirements.ts",
    from: 'own !== ""',
    to: "true",
    why: "a regime without a currency has one tier, which holds for every document",
  },
  {
    file: "tax/requirements.ts",
    from: '""',
    to: FILLED,
    why: "a regime without a currency has one tier, which holds for every document",
  },
  {
    file: "tax/rates.ts",
    from: '""',
    to: FILLED,
    near: "TAX_MARKS",
    why: "what is no mark is read as none as well",
  },
  {
    file: "tax/receipts.ts",
    from: '""',
    to: FILLED,
    why: "no limit is stated in it, so that no currency is compared with it",
  },
  { file: "air/climateNormals.ts", from: '""', to: FILLED, why: THERE },
  { file: "air/climate.ts", from: '""', to: FILLED, why: "the list is never empty" },
  { file: "air/climate.ts", from: "km < best.km", to: "km <= best.km", why: "no two towns are equally far" },
  { file: "air/typical.ts", from: "km > NAMED_KM", to: "km >= NAMED_KM", why: "no town is exactly so far" },
  { file: "air/conditions.ts", from: '"spring"', to: '""', near: "third", why: THERE },
  {
    file: "air/places.ts",
    from: "SAME_TIME_CITIES.trim()",
    to: "SAME_TIME_CITIES",
    why: "lines are parted with the space around them, and a number is read alike with a line's end after it",
  },
  { file: "air/places.ts", from: '""', to: FILLED, near: "zone", why: THERE },
  { file: "tuning/slide.ts", from: "surplus(high) >= 0", to: "surplus(high) > 0", why: BISECTED },
  { file: "tuning/slide.ts", from: "surplus(low) <= 0", to: "surplus(low) < 0", why: BISECTED },
  { file: "tuning/slide.ts", from: "surplus(middle) > 0", to: "surplus(middle) >= 0", why: BISECTED },
  {
    file: "tuning/slide.ts",
    from: "i < 34",
    to: "i <= 34",
    why: "one more halving of a span that is below a nanometre",
  },
  {
    file: "tuning/needle.ts",
    from: "left <= 0",
    to: "left < 0",
    why: "a taper of no length takes nothing off",
  },
  {
    file: "tuning/needle.ts",
    from: "d < THINNEST",
    to: "d <= THINNEST",
    why: "no taper's tangent leaves exactly this thickness",
  },
  {
    file: "tuning/needleProfile.ts",
    from: "at > fromMm",
    to: "at >= fromMm",
    why: "a corner at the end adds a piece of no length",
  },
  {
    file: "tuning/needleProfile.ts",
    from: "at < toMm",
    to: "at <= toMm",
    why: "a corner at the end adds a piece of no length",
  },
  ...[
    ["a !== undefined && b !== undefined", "true"],
    ["a !== undefined && b !== undefined", "a !== undefined || b !== undefined"],
    ["a !== undefined", "true"],
    ["b !== undefined", "true"],
    ["byLength !== undefined", "true"],
    ["byCoils !== undefined && byLength !== undefined", "true"],
    ["byCoils !== undefined && byLength !== undefined", "byCoils !== undefined || byLength !== undefined"],
    ["byCoils !== undefined", "true"],
  ].map(([from = "", to = ""]) => ({ file: "tuning/springCut.ts", from, to, why: NO_NUMBER })),
  ...[
    ["wireMm !== undefined && coils !== undefined", "true"],
    ["wireMm !== undefined && coils !== undefined", "wireMm !== undefined || coils !== undefined"],
    ["wireMm !== undefined", "true"],
    ["coils !== undefined", "true"],
    ["shape.rateNPerM !== undefined && reckoned !== undefined", "true"],
    [
      "shape.rateNPerM !== undefined && reckoned !== undefined",
      "shape.rateNPerM !== undefined || reckoned !== undefined",
    ],
    ["shape.rateNPerM !== undefined", "true"],
    ["reckoned !== undefined", "true"],
  ].map(([from = "", to = ""]) => ({ file: "tuning/springShape.ts", from, to, why: NO_NUMBER })),
  {
    file: "tuning/springCut.ts",
    from: "byLength < 1",
    to: "byLength <= 1",
    why: "a spring as long as its base is the base either way",
  },
  {
    file: "tuning/springCut.ts",
    from: "Math.abs(byLength / byCoils - 1) > APART",
    to: "Math.abs(byLength / byCoils - 1) >= APART",
    why: "no quotient of two doubles is off by exactly the double 0.06: it is no multiple of 2^-53",
  },
  { file: "tuning/springCut.ts", from: "base.coils?.toFixed", to: "base.coils.toFixed", why: THERE },
  {
    file: "tuning/springCut.ts",
    from: "(values.springLengthMm ?? 0) > springLengthMm",
    to: "(values.springLengthMm ?? 0) >= springLengthMm",
    why: "the same length leaves nothing to settle either way",
  },
  {
    file: "tuning/springCut.ts",
    from: "Math.abs(1000 * now.freeM - springLengthMm) < 1e-6",
    to: "Math.abs(1000 * now.freeM - springLengthMm) <= 1e-6",
    why: "a difference is rounding, far below this, or a tenth of a millimetre and more",
  },
  {
    file: "tuning/slideRise.ts",
    from: "gradient < 1e-6",
    to: "gradient <= 1e-6",
    why: "both formulas answer the same where they meet",
  },
  {
    file: "tuning/venturi.ts",
    from: "1 - r < 1e-9",
    to: "1 - r <= 1e-9",
    why: "both formulas answer the same where they meet",
  },
  { file: "tuning/choose.ts", from: "z > 0", to: "z >= 0", why: "half lies on either side of 0" },
  {
    file: "tuning/choose.ts",
    from: "sigma < 1e-9",
    to: "sigma <= 1e-9",
    why: "so near to certain both answer the same",
  },
  {
    file: "tuning/densityJet.ts",
    from: "fuel.now === fuel.reference",
    to: "false",
    why: "a fuel's flow over its own is 1 as well",
  },
  {
    file: "tuning/densityJet.ts",
    from: "exact < density.exact",
    to: "exact <= density.exact",
    why: "it comes here only where the two are half a step apart",
  },
  {
    file: "tuning/jetLimits.ts",
    from: "b.exact > a.exact",
    to: "b.exact >= a.exact",
    why: "two airs that ask for one size say the same",
  },
  {
    file: "tuning/jetLimits.ts",
    from: "settingDef(key)?.step ?? 2.5",
    to: "settingDef(key)?.step && 2.5",
    why: "2.5 is the step of both jets",
  },
  { file: "tuning/jetLimits.ts", from: "settingDef(key)?.step", to: "settingDef(key).step", why: THERE },
  {
    file: "tuning/jetStep.ts",
    from: "wanted >= low",
    to: "wanted > low",
    why: "the limits lie a hair outside the sizes",
  },
  {
    file: "tuning/jetStep.ts",
    from: "wanted <= high",
    to: "wanted < high",
    why: "the limits lie a hair outside the sizes",
  },
  {
    file: "tuning/jetStep.ts",
    from: "settingDef(setting)?.name",
    to: "settingDef(setting).name",
    why: THERE,
  },
  {
    file: "tuning/jetStep.ts",
    from: "wanted < fitted",
    to: "wanted <= fitted",
    why: "the fitted size is never held back",
  },
  {
    file: "tuning/jetStep.ts",
    from: "choice.convention === r.machine.convention",
    to: "false",
    why: "through its area a size comes back as itself",
  },
  {
    file: "tuning/densityJet.ts",
    from: 'settingDef("mainJet")?.step ?? 2.5',
    to: 'settingDef("mainJet")?.step && 2.5',
    why: "2.5 is the step",
  },
  {
    file: "tuning/densityJet.ts",
    from: 'settingDef("mainJet")?.step',
    to: 'settingDef("mainJet").step',
    why: THERE,
  },
  {
    file: "tuning/densityJet.ts",
    from: '"mainJet"',
    to: '""',
    why: "2.5 stands in for the step, and is it",
  },
  {
    file: "tuning/densityJet.ts",
    from: "Math.abs(density.exact - fitted) < 0.05",
    to: "Math.abs(density.exact - fitted) <= 0.05",
    why: "no two sizes above 1 are apart by exactly the double 0.05: it is no multiple of 2^-52",
  },
];
