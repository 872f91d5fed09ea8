import { z } from "zod";
import type { Recipe } from "../domain/packages/recipe";
import { COMPLAINT_KEYS } from "../domain/tuning/complaints";
import { WEAR_KEYS } from "../domain/tuning/wear";
import { PartChangeSchema } from "./describedParts";
import { oneLine } from "./oneLine";

/** Of several works a work's own key stands before its keys: lib/domain/quoting/composeWorks.ts. */
const key = z.string().trim().min(1, "A key is missing.").max(70);
const name = oneLine(120).min(1, "A name is missing.");
const text = z.string().trim().max(2000);
const why = z.string().trim().min(1, "Say why the rule is there.").max(300);
const minutes = z.int().min(0).max(6000);
const quantityMilli = z.int().min(1, "A quantity must be above nothing.").max(1_000_000_000);
const number = z.number().min(-1e9).max(1e9);
const keys = z.array(key).max(60);
const texts = z.array(text.min(1)).max(40);

export const PartNeedSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("part"),
    code: key,
    quantityMilli,
    operation: key.exactOptional(),
    kit: key.exactOptional(),
  }),
  z.strictObject({
    kind: z.literal("jet"),
    setting: z.enum(["mainJet", "pilotJet"]),
    family: key,
    quantityMilli,
    operation: key.exactOptional(),
  }),
]);

export const SettingChangeSchema = z.strictObject({
  setting: key,
  change: z.enum(["computed", "set", "add"]),
  value: number.exactOptional(),
});

const needleMm = z.number().min(0).max(200);
const NeedleWorkSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("reduce"),
    fromMm: needleMm,
    toMm: needleMm,
    byMm: z.number().min(0.001).max(0.4),
    gaugeMm: needleMm.exactOptional(),
  }),
  z.strictObject({
    kind: z.literal("stations"),
    stations: z
      .array(z.strictObject({ atMm: needleMm, diameterMm: z.number().min(0.5).max(6) }))
      .min(2)
      .max(20),
    gaugeMm: needleMm.exactOptional(),
  }),
  z.strictObject({ kind: z.literal("exchange"), code: key }),
]);

export const HoldPointSchema = z
  .strictObject({
    kind: z.enum(["reading", "signature"]),
    name,
    unit: z.string().max(20).exactOptional(),
    low: number.exactOptional(),
    high: number.exactOptional(),
    step: z.number().positive().max(1e9).exactOptional(),
    measures: key.exactOptional(),
    station: z.number().min(0).max(120).exactOptional(),
    carburettor: z.int().min(1).max(4).exactOptional(),
  })
  .refine(
    (point) => point.low === undefined || point.high === undefined || point.low <= point.high,
    "The low limit is above the high one.",
  );

export const RecheckSchema = z.strictObject({
  what: oneLine(160).min(1, "Say what is looked at again."),
  km: z.int().min(1).max(20_000),
  days: z.int().min(1).max(1000),
});

const PickSchema = z.strictObject({
  entry: key,
  print: z.string().max(64),
  part: z.enum(["accesses", "operations"]),
  key,
  line: z.enum(["cautions", "closingChecks"]).exactOptional(),
});

export const OptionKitSchema = z.strictObject({
  code: key,
  name,
  priceMinor: z.int().min(0).max(1_000_000_000),
});

const RuleSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("needs"), option: key, anyOf: keys, why }),
  z.strictObject({ kind: z.literal("excludes"), option: key, other: key, why }),
  z.strictObject({
    kind: z.literal("warns"),
    option: key,
    without: key.exactOptional(),
    with: key.exactOptional(),
    why,
  }),
  z.strictObject({
    kind: z.literal("only when"),
    option: key,
    fact: key,
    op: z.enum(["=", "!=", "<", "<=", ">", ">="]),
    value: z.union([z.string().trim().min(1).max(60), number]),
    why,
  }),
]);

/** The recipe that a quote's works come to together. */
export const RecipeOfWorksSchema = z.strictObject({
  format: z.literal("throttlewright-recipe"),
  version: z.literal(2),
  groups: z
    .array(z.strictObject({ key, name, choose: z.enum(["exactly one", "at most one", "any"]) }))
    .max(40),
  options: z
    .array(
      z.strictObject({
        key,
        group: key,
        name,
        plain: text,
        operations: keys,
        parts: z.array(PartNeedSchema).max(60),
        changes: z.array(SettingChangeSchema).max(20),
        answers: z.array(z.enum(COMPLAINT_KEYS)).max(COMPLAINT_KEYS.length).exactOptional(),
        needle: NeedleWorkSchema.exactOptional(),
        leaves: z.array(PartChangeSchema).min(1).max(5).exactOptional(),
        cautions: texts,
        preset: z.boolean(),
        roadUse: z.boolean(),
        fixedPriceMinor: z.int().min(0).max(1_000_000_000).exactOptional(),
        kits: z.array(OptionKitSchema).min(1).max(20).exactOptional(),
      }),
    )
    .max(60),
  operations: z
    .array(
      z.strictObject({
        key,
        name,
        instruction: text,
        minutes,
        grade: key,
        accesses: keys,
        after: keys,
        parts: z.array(PartNeedSchema).max(60),
        holdPoints: z.array(HoldPointSchema).max(20),
        makes: z.array(key).max(20).exactOptional(),
        makesSwarf: z.boolean().exactOptional(),
        cautions: texts,
        tools: texts,
        inspects: z.array(z.enum(WEAR_KEYS)).max(WEAR_KEYS.length),
        recheck: RecheckSchema.exactOptional(),
      }),
    )
    .max(120),
  accesses: z
    .array(
      z.strictObject({
        key,
        name,
        openAs: name.exactOptional(),
        closeAs: name.exactOptional(),
        fuelOpen: z.boolean().exactOptional(),
        openMinutes: minutes,
        closeMinutes: minutes,
        needs: keys,
        excludes: keys,
        closingChecks: texts,
        cautions: texts,
        tools: texts,
        recheck: RecheckSchema.exactOptional(),
      }),
    )
    .max(60),
  rules: z.array(RuleSchema).max(120),
  picks: z.array(PickSchema).max(400).exactOptional(),
}) satisfies z.ZodType<Recipe>;

/** Longest key of a package's own. */
const LONGEST_KEY = 60;

/** A recipe as it comes from a form or a file: right shapes and sizes. Whether it makes sense is `checkRecipe`'s to say. */
export const RecipeSchema = RecipeOfWorksSchema.superRefine((recipe, context) => {
  for (const part of ["groups", "options", "operations", "accesses"] as const)
    for (const [at, { key: own }] of recipe[part].entries())
      if (own.length > LONGEST_KEY)
        context.addIssue({
          code: "custom",
          path: [part, at, "key"],
          message: `Keep a key within ${LONGEST_KEY} characters.`,
        });
}) satisfies z.ZodType<Recipe>;
