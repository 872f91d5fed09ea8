import { z } from "zod";
import type { Conditions } from "@/lib/domain/air/conditions";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import type { PriceLine, TaxSubtotal } from "@/lib/domain/pricing/facts";
import { type DidHere, EFFECT_KINDS } from "@/lib/domain/procedures/effects";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import type { PartTarget } from "@/lib/domain/tuning/partChange";
import type { HowKnown } from "@/lib/domain/tuning/settings";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { DescribedPartSchema, PartChangeSchema } from "@/lib/schemas/describedParts";
import { UnderSchema } from "@/lib/schemas/effects";
import { NeedleRecordSchema } from "@/lib/schemas/needles";
import {
  conditions,
  day,
  how,
  line,
  number,
  plannedStep,
  taxSubtotal,
  text,
  totals,
  whole,
  writtenAsItIs,
} from "./pieces";
import { readVersion, type Versions } from "./versions";

export interface FrozenOption {
  readonly key: string;
  /** Key of the work it is of; absent where the quote is one package. */
  readonly work?: string;
  readonly name: string;
  readonly plain: string;
  readonly minutes: number;
  readonly roadUse: boolean;
  /** Complaints of the bike's intake that it answers, in words; absent where there are none. */
  readonly answers?: readonly string[];
}

export interface FrozenSetting {
  /** Carburettor position, from 1. */
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly from: number | null;
  readonly how: HowKnown;
}

export interface FrozenPart {
  readonly partId: number | null;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantityMilli: number;
  readonly operation: string | null;
  /** A jet that the step settles; absent for every other part. */
  readonly unsettled?: {
    readonly setting: string;
    readonly family: string;
    readonly carburettors: readonly number[];
  };
}

/** Something the customer may add when accepting, with what it adds by itself. */
export interface FrozenExtra {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly grossMinor: number;
  readonly minutes: number;
}

/** One of the ways a customer may choose from, in short: what differs between them. */
export interface FrozenAlternative {
  /** A, B or C; empty for the quote as sent where it is none of these. */
  readonly letter: string;
  readonly name: string;
  /** Option keys that the way is computed from. */
  readonly choices: readonly string[];
  readonly options: readonly string[];
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly minutes: number;
  readonly settings: readonly FrozenSetting[];
  /** Lambda over throttle (0 to 1) of the first carburettor; empty where no setting changes. */
  readonly curve: readonly { readonly throttle: number; readonly before: number; readonly after: number }[];
  readonly roadUse: boolean;
  readonly cautions: readonly string[];
}

/** A work as a quote lists it. */
export interface FrozenWork {
  readonly key: string;
  readonly kind: "package" | "written" | "parts" | "text";
  readonly name: string;
  /** The words of a text; empty for other works. */
  readonly text: string;
}

/** Costs stay out of what a customer is shown. */
export type FrozenLine = Omit<PriceLine, "costMinor">;

/** Everything a sent quote printed, and what accepting it will make. Never changes. */
export interface FrozenQuote {
  readonly format: "throttlewright-quote";
  readonly version: 3;
  /** As it is written. */
  readonly number: string;
  readonly revision: number;
  readonly sentOn: string;
  readonly validUntil: string;
  readonly title: string;
  /** The number of the job that it adds to; absent where it begins one. */
  readonly ofJob?: string;
  readonly shop: {
    readonly name: string;
    readonly legalName: string;
    readonly taxNumber: string;
    readonly numberName?: string;
    readonly numberMarks?: readonly string[];
    readonly address: string;
    readonly phone: string;
    readonly email: string;
    readonly note: string;
  };
  readonly customer: {
    readonly name: string;
    readonly address: string;
    readonly taxNumber: string;
    readonly business: boolean;
  };
  readonly bike: { readonly name: string; readonly plate: string; readonly frameNumber: string };
  readonly carburettors: readonly string[];
  /** The one package that the quote is; else its works, in their order. */
  readonly package?: { readonly name: string; readonly revision: number };
  readonly works?: readonly FrozenWork[];
  readonly locale: string;
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly options: readonly FrozenOption[];
  readonly lines: readonly FrozenLine[];
  readonly taxes: readonly TaxSubtotal[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly savedMinutes: number;
  readonly savedMinor: number;
  /** "visits": saved against a visit for each work; absent in earlier texts: against opening up for every single operation. */
  readonly savedAgainst?: "visits";
  readonly minutes: number;
  readonly steps: readonly PlannedStep[];
  readonly parts: readonly FrozenPart[];
  readonly conditions: Conditions;
  readonly settings: readonly FrozenSetting[];
  /** Needles that the work leaves; absent where it changes none. */
  readonly needles?: readonly { readonly carburettor: number; readonly record: NeedleRecord }[];
  /** Described parts that the work leaves otherwise; absent where it changes none. */
  readonly described?: readonly (PartTarget & { readonly carburettor: number })[];
  /** What the tuning library answered, whole; null where nothing was computed. */
  readonly calculation: TargetSheet | null;
  readonly cautions: readonly string[];
  readonly acknowledgements: readonly { readonly key: string; readonly text: string }[];
  /** What the shop itself says before a yes, such as a right of withdrawal; absent where it says nothing. */
  readonly ownTerms?: string;
  /** The share off the whole, in basis points, that the quote counts with; absent in earlier texts. */
  readonly discount?: { readonly bp: number; readonly why: string };
  /** What its packages did on bikes of the shop; absent where the shop does not tell, or nothing was read. */
  readonly did?: readonly DidHere[];
  /** Extras the customer may still add; absent where none are offered. */
  readonly extras?: readonly FrozenExtra[];
  /** Names of the extras that the customer added. */
  readonly taken?: readonly string[];
  /** Alternatives offered to choose from, this one among them; absent where there is no choice. */
  readonly alternatives?: readonly FrozenAlternative[];
  /** The way that this text is. */
  readonly alternative?: { readonly letter: string; readonly name: string };
  /** The revision that was sent, where the customer's choice made this one of it. */
  readonly madeFrom?: number;
}

const setting = z.looseObject({
  carburettor: whole,
  setting: text,
  value: number,
  from: number.nullable(),
  how,
});

const extra = z.looseObject({ key: text, name: text, plain: text, grossMinor: whole, minutes: number });

const alternative = z.looseObject({
  letter: text,
  name: text,
  choices: z.array(text),
  options: z.array(text),
  grossMinor: whole,
  depositMinor: whole,
  minutes: number,
  settings: z.array(setting),
  curve: z.array(z.looseObject({ throttle: number, before: number, after: number })),
  roadUse: z.boolean(),
  cautions: z.array(text),
});

/** The tuning library's answer in outline: what lies inside is its own, and kept as it was given. */
const calculation = z
  .looseObject({
    carburettors: z.array(z.looseObject({ name: text, settings: z.array(z.looseObject({ key: text })) })),
  })
  .transform((sheet) => sheet as unknown as TargetSheet);

const PRINTED = {
  format: z.literal("throttlewright-quote"),
  revision: whole,
  sentOn: day,
  validUntil: day,
  title: text,
  shop: z.looseObject({
    name: text,
    legalName: text,
    taxNumber: text,
    numberName: text.exactOptional(),
    numberMarks: z.array(text).exactOptional(),
    address: text,
    phone: text,
    email: text,
    note: text,
  }),
  customer: z.looseObject({ name: text, address: text, taxNumber: text, business: z.boolean() }),
  bike: z.looseObject({ name: text, plate: text, frameNumber: text }),
  carburettors: z.array(text),
  package: z.looseObject({ name: text, revision: whole }).exactOptional(),
  works: z
    .array(
      z.looseObject({ key: text, kind: z.enum(["package", "written", "parts", "text"]), name: text, text }),
    )
    .exactOptional(),
  locale: text,
  currency: text,
  pricesIncludeTax: z.boolean(),
  taxRegime: text,
  options: z.array(
    z.looseObject({
      key: text,
      work: text.exactOptional(),
      name: text,
      plain: text,
      minutes: number,
      roadUse: z.boolean(),
      answers: z.array(text).exactOptional(),
    }),
  ),
  lines: z.array(line),
  taxes: z.array(taxSubtotal),
  ...totals,
  depositMinor: whole,
  savedMinutes: number,
  savedMinor: whole,
  savedAgainst: z.literal("visits").exactOptional(),
  minutes: number,
  steps: z.array(plannedStep),
  parts: z.array(
    z.looseObject({
      partId: whole.nullable(),
      code: text,
      name: text,
      unit: text,
      quantityMilli: whole,
      operation: text.nullable(),
    }),
  ),
  conditions,
  settings: z.array(setting),
  needles: z.array(z.looseObject({ carburettor: whole, record: NeedleRecordSchema })).exactOptional(),
  described: z
    .array(
      z.looseObject({ carburettor: whole, before: DescribedPartSchema.nullable(), after: PartChangeSchema }),
    )
    .exactOptional(),
  calculation: calculation.nullable(),
  cautions: z.array(text),
  acknowledgements: z.array(z.looseObject({ key: text, text })),
  extras: z.array(extra).exactOptional(),
  taken: z.array(text).exactOptional(),
  ownTerms: text.exactOptional(),
  ofJob: text.exactOptional(),
  did: z
    .array(
      z.looseObject({
        name: text,
        effects: z.array(
          z.looseObject({
            kind: z.enum(EFFECT_KINDS),
            under: UnderSchema,
            median: number,
            low: number,
            high: number,
            bikes: whole,
          }),
        ),
      }),
    )
    .exactOptional(),
  madeFrom: whole.exactOptional(),
};

const chosen = z.looseObject({ letter: text, name: text });

const sinceVersion2 = {
  ...PRINTED,
  alternatives: z.array(alternative).exactOptional(),
  alternative: chosen.exactOptional(),
};

const Version3 = z.looseObject({
  ...sinceVersion2,
  version: z.literal(3),
  number: text,
}) satisfies z.ZodType<FrozenQuote>;

/** Its number was a number. */
const Version2 = z
  .looseObject({ ...sinceVersion2, version: z.literal(2), number: writtenAsItIs })
  .transform((printed): FrozenQuote => ({ ...printed, version: 3 }));

/** Called alternatives "ways". */
const Version1 = z
  .looseObject({
    ...PRINTED,
    version: z.literal(1),
    number: writtenAsItIs,
    ways: z.array(alternative).exactOptional(),
    way: chosen.exactOptional(),
  })
  .transform(
    ({ ways, way, ...printed }): FrozenQuote => ({
      ...printed,
      version: 3,
      ...(ways && { alternatives: ways }),
      ...(way && { alternative: way }),
    }),
  );

const QUOTES: Versions<FrozenQuote> = {
  format: "throttlewright-quote",
  what: "a frozen quote",
  readers: { 1: Version1, 2: Version2, 3: Version3 },
};

/** A frozen quote out of the database. Its hash is that of the JSON as it was kept, not of what is answered here. */
export function storedQuote(json: unknown): FrozenQuote {
  return readVersion(QUOTES, json);
}
