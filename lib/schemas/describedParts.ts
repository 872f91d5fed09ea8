import { z } from "zod";
import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import type { PartChange } from "@/lib/domain/tuning/partChange";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";
import { readTyped, shortText } from "./typedNumber";

const mm = z.number().min(0).max(500);
const number = z.number().min(0).max(1_000_000);

/** A part as a package leaves it. */
export const PartChangeSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("spring"),
    change: z.enum(["delivered", "cut", "exchanged"]),
    freeMm: z.number().min(20).max(250),
    wireMm: mm.nullable(),
    coils: z.number().min(2).max(60).nullable(),
    rateNPerM: number.nullable(),
  }),
  z.strictObject({ kind: z.literal("liftHoles"), holesMm: z.array(z.number().min(0.5).max(6)).max(4) }),
  z.strictObject({
    kind: z.literal("openings"),
    openings: z
      .array(z.strictObject({ diameterMm: z.number().min(1).max(120), breatherMm: mm.nullable() }))
      .max(8),
  }),
  z.strictObject({
    kind: z.enum(["filter", "silencer"]),
    name: oneLine(80),
    flowLMin: number.nullable(),
    atPa: number.nullable().default(null),
  }),
]) satisfies z.ZodType<PartChange>;

/** A described part as it is kept. */
export const DescribedPartSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("jet"),
    setting: z.enum(["mainJet", "pilotJet"]),
    number: number.nullable(),
    by: z.enum(["pin gauge", "flow"]),
    measured: z.number().min(0.1).max(1000),
  }),
  ...PartChangeSchema.options,
]) satisfies z.ZodType<DescribedPart>;

const text = z.string().max(200, "Keep this within 200 characters.").default("");

/** A part as a form describes it: the fields of its kind; blank is not known. */
export const DescribePartSchema = z
  .object({
    bikeId: recordId,
    carburettor: z.coerce.number().int().min(1).max(4),
    kind: z.enum(["jet", "spring", "liftHoles", "openings", "filter", "silencer"]),
    setting: z.enum(["mainJet", "pilotJet"]).default("mainJet"),
    by: z.enum(["pin gauge", "flow"]).default("pin gauge"),
    change: z.enum(["delivered", "cut", "exchanged"]).default("delivered"),
    name: shortText(80, "The name"),
    number: text,
    measured: text,
    freeMm: text,
    wireMm: text,
    coils: text,
    rateNPerM: text,
    flowLMin: text,
    atPa: text,
    holes: text,
    openings: text,
  })
  .transform((form, context): { bikeId: number; carburettor: number; part: DescribedPart } => {
    const tell = (field: string, message: string) =>
      context.addIssue({ code: "custom", path: [field], message });
    const optional = (field: "number" | "wireMm" | "coils" | "rateNPerM" | "flowLMin" | "atPa") => {
      const value = readTyped(form[field]);
      // Nothing of a part is zero: a spring of no rate would be refused wherever it is counted with.
      if (value === undefined || (value !== null && value <= 0))
        tell(field, "Enter a number above zero, or leave it blank.");
      return value ?? null;
    };
    const needed = (field: "measured" | "freeMm") => {
      const value = readTyped(form[field]);
      if (typeof value !== "number") tell(field, "Enter what was measured.");
      return value ?? 0;
    };
    const part = partIn(form, optional, needed, tell);
    const read = DescribedPartSchema.safeParse(part);
    if (!read.success && context.issues.length === 0)
      for (const issue of read.error.issues)
        tell(
          FIELD[String(issue.path[0])] ?? String(issue.path[0]),
          "This is outside what such a part can have.",
        );
    return { bikeId: form.bikeId, carburettor: form.carburettor, part };
  });
export type DescribePartInput = z.output<typeof DescribePartSchema>;

const FIELD: Readonly<Record<string, string>> = { holesMm: "holes" };

/** Numbers as a list says them, `most` beside each other: “48 60; 30”. */
export function listedNumbers(typed: string, most: number, tell: (message: string) => void): number[][] {
  return typed
    .split(/[;\n]/)
    .map((one) => one.trim())
    .filter(Boolean)
    .map((one) => {
      const numbers = one.split(/\s+/).map((n) => readTyped(n));
      if (numbers.length > most || numbers.some((n) => typeof n !== "number"))
        tell(`“${one}” cannot be read: see the example.`);
      return numbers.map((n) => n ?? 0);
    });
}

function partIn(
  form: {
    kind: DescribedPart["kind"];
    setting: "mainJet" | "pilotJet";
    by: "pin gauge" | "flow";
    change: "delivered" | "cut" | "exchanged";
    name: string;
    holes: string;
    openings: string;
  },
  optional: (field: "number" | "wireMm" | "coils" | "rateNPerM" | "flowLMin" | "atPa") => number | null,
  needed: (field: "measured" | "freeMm") => number,
  tell: (field: string, message: string) => void,
): DescribedPart {
  const list = (typed: string, field: string, most: number) =>
    listedNumbers(typed, most, (message) => tell(field, message));
  switch (form.kind) {
    case "jet":
      return {
        kind: "jet",
        setting: form.setting,
        number: optional("number"),
        by: form.by,
        measured: needed("measured"),
      };
    case "spring":
      return {
        kind: "spring",
        change: form.change,
        freeMm: needed("freeMm"),
        wireMm: optional("wireMm"),
        coils: optional("coils"),
        rateNPerM: optional("rateNPerM"),
      };
    case "liftHoles":
      return { kind: "liftHoles", holesMm: list(form.holes, "holes", 1).map(([d]) => d ?? 0) };
    case "openings":
      return {
        kind: "openings",
        openings: list(form.openings, "openings", 2).map(([d, b]) => ({
          diameterMm: d ?? 0,
          breatherMm: b ?? null,
        })),
      };
    default:
      if (form.name === "") tell("name", "Say which one it is.");
      return { kind: form.kind, name: form.name, flowLMin: optional("flowLMin"), atPa: optional("atPa") };
  }
}
