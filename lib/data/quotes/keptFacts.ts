import { z } from "zod";
import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { RecipeOfWorksSchema } from "@/lib/schemas/recipe";
import { readRecipe } from "@/lib/schemas/recipeVersions";
import { conditions, day, how, number, text, whole } from "../documents/pieces";
import { readVersion, type Versions } from "../documents/versions";

/** The facts of a sent revision as they are kept, for what its customer may choose. */
const FORMAT = "throttlewright-quote-facts";
const VERSION = 2;

export function keptFacts(facts: QuoteFacts): Prisma.InputJsonObject {
  return { format: FORMAT, version: VERSION, ...facts } as unknown as Prisma.InputJsonObject;
}

/** A package's recipe of whatever version it was kept in, or that of several works. */
const recipe = z.unknown().transform((json, context): Recipe => {
  const read = readRecipe(json);
  const composed = read.success ? read : RecipeOfWorksSchema.safeParse(json);
  if (composed.success) return composed.data;
  context.addIssue({ code: "custom", message: z.prettifyError(composed.error) });
  return z.NEVER;
});

const handLine = z.looseObject({
  key: text,
  kind: z.enum(["outside", "text"]),
  name: text,
  priceMinor: whole,
  costMinor: whole,
});

const known = z.looseObject({ value: z.union([text, number, z.looseObject({})]), how });
const bp = number;

const Version2 = z
  .looseObject({
    terms: z.looseObject({
      currency: text,
      locale: text,
      zone: text,
      altitudeM: number,
      latitudeSouth: z.boolean(),
      taxRegime: text,
      taxRateBp: bp,
      taxLabour: z.boolean(),
      taxParts: z.boolean(),
      pricesIncludeTax: z.boolean(),
      sundriesBp: bp,
      sundriesMaxMinor: whole.nullable(),
      minimumMarginBp: bp,
      depositBp: bp,
    }),
    grades: z.array(
      z.looseObject({ code: text, name: text, ratePerHourMinor: whole, costPerHourMinor: whole }),
    ),
    bands: z.array(z.looseObject({ upToE4: whole.nullable(), markupBp: bp })),
    discountBp: bp,
    discountClass: text,
    priceBook: z.looseObject({
      roundDownToMinor: whole,
      pricesFrom: day.nullable(),
      pricesUntil: day.nullable(),
    }),
    agreed: z.looseObject({
      lines: z.array(handLine),
      parts: z.array(z.looseObject({ key: text, code: text, quantityMilli: whole })).exactOptional(),
      lineDiscounts: z.array(z.looseObject({ line: text, bp, why: text })),
      discount: z
        .discriminatedUnion("kind", [
          z.looseObject({ kind: z.literal("percent"), bp, why: text }),
          z.looseObject({ kind: z.literal("amount"), minor: whole, why: text }),
        ])
        .nullable(),
      deposit: z.union([z.looseObject({ percentBp: bp }), z.looseObject({ amountMinor: whole })]).nullable(),
      extras: z.array(text),
    }),
    validUntil: day,
    openings: z.array(text).exactOptional(),
    today: day.nullable(),
    recipe,
    works: z
      .array(
        z.looseObject({ key: text, kind: z.enum(["package", "written", "parts", "text"]), name: text, text }),
      )
      .exactOptional(),
    outside: z.array(handLine).exactOptional(),
    choices: z.array(text),
    conditions,
    modelFacts: z.record(text, z.union([text, number, z.null()])),
    card: z.record(text, known),
    carburettors: z.array(
      z.looseObject({ name: text, settings: z.record(text, known), needle: known.exactOptional() }),
    ),
    positions: z.array(whole),
    baseline: z.looseObject({
      pressurePa: number,
      temperatureK: number,
      humidity: number,
      densityAltitudeM: number,
      sigma: number,
      assumed: z.boolean(),
    }),
    calibration: z
      .array(
        z.looseObject({
          region: z.enum(["pilot", "straight", "taper", "main"]),
          value: number,
          sigma: number,
          samples: number,
        }),
      )
      .nullable(),
    measured: z.boolean(),
    parts: z.array(
      z.looseObject({
        id: whole,
        code: text,
        name: text,
        kind: text,
        unit: text,
        family: text,
        sizeMilli: whole.nullable(),
        convention: text,
        costE4: whole.nullable(),
        priceE4: whole.nullable(),
        priceUntil: day.nullable(),
        freeMilli: whole,
        onOrderMilli: whole,
        coming: z.array(z.looseObject({ openMilli: whole, dueOn: day.nullable(), jobId: whole.nullable() })),
        leadDays: whole.nullable(),
        orderable: z.boolean(),
      }),
    ),
  })
  // What the tuning library knows of card and carburettors is checked in outline: its own types say the rest.
  .transform(({ format: _f, version: _v, ...facts }) => facts as unknown as QuoteFacts);

/** Facts that were kept before they named their format knew no day and less of their parts. */
const Version1 = z
  .looseObject({ today: day.nullable().default(null), parts: z.array(z.looseObject({})) })
  .transform(({ parts, ...facts }): unknown => ({
    ...facts,
    parts: parts.map((part) => ({ priceUntil: null, coming: [], ...part })),
  }))
  .pipe(Version2 as z.ZodType<QuoteFacts, unknown>);

const FACTS: Versions<QuoteFacts> = {
  format: FORMAT,
  what: "a quote's facts",
  readers: { 1: Version1, [VERSION]: Version2 },
};

/** The facts kept with a sent revision that offers extras or alternatives; null where it offers none. */
export function storedFacts(json: unknown): QuoteFacts | null {
  if (json === null || json === undefined) return null;
  const { format } = json as { format?: unknown };
  return readVersion(FACTS, format === undefined ? { ...json, format: FORMAT, version: 1 } : json);
}
