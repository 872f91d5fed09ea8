import { z } from "zod";
import type { Conditions } from "@/lib/domain/air/conditions";
import { SEASONS } from "@/lib/domain/air/conditions";
import type { PlannedStep } from "@/lib/domain/plan/plan";
import type { PriceLine, TaxSubtotal } from "@/lib/domain/pricing/facts";
import { SAID } from "@/lib/domain/pricing/said";
import type { Reason } from "@/lib/domain/reason";
import type { HowKnown } from "@/lib/domain/tuning/settings";

/** What several kept documents have in common. Loose: what a document printed besides stays with it. */

export const text = z.string();
/** Money in minor units, quantities in thousandths: whole, and negative on a credit note. */
export const whole = z.int();
export const number = z.number();
/** A number of a quote, a job or an order from before theirs could have a prefix: as it was, it was written. */
export const writtenAsItIs = z.int().transform(String);
export const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

export const how = z.enum(["measured", "read", "computed", "assumed"]) satisfies z.ZodType<HowKnown>;

const reason = z.looseObject({
  fact: text,
  from: text,
  effect: text.exactOptional(),
}) satisfies z.ZodType<Reason>;

export const line = z.looseObject({
  key: text,
  work: text.exactOptional(),
  kind: z.enum(["labour", "part", "fixed", "sundries", "outside", "discount"]),
  name: text,
  quantityMilli: whole,
  unit: text,
  unitPriceE4: number,
  netMinor: whole,
  shownMinor: whole,
  taxCategory: text,
  taxRateBp: number,
  because: z.array(reason),
  kit: z.looseObject({ code: text, name: text }).exactOptional(),
  said: z.array(z.looseObject({ what: z.enum(SAID), english: text })).exactOptional(),
}) satisfies z.ZodType<Omit<PriceLine, "costMinor">>;

export const taxSubtotal = z.looseObject({
  category: text,
  rateBp: number,
  name: text,
  taxableMinor: whole,
  taxMinor: whole,
}) satisfies z.ZodType<TaxSubtotal>;

export const totals = { netMinor: whole, taxMinor: whole, grossMinor: whole };

export const conditions = z.looseObject({
  altitudeM: number,
  season: z.enum(SEASONS),
  temperatureC: number.nullable(),
  humidityPercent: number.nullable(),
}) satisfies z.ZodType<Conditions>;

const holdPoint = z.looseObject({
  kind: z.enum(["reading", "signature"]),
  name: text,
  unit: text.exactOptional(),
  low: number.exactOptional(),
  high: number.exactOptional(),
  step: number.exactOptional(),
  measures: text.exactOptional(),
  station: number.exactOptional(),
  carburettor: number.exactOptional(),
});

export const plannedStep = z.looseObject({
  kind: z.enum(["open", "operation", "close"]),
  key: text,
  name: text,
  instruction: text,
  minutes: number,
  grade: text,
  tools: z.array(text),
  cautions: z.array(text),
  holdPoints: z.array(holdPoint),
  checks: z.array(text),
  openAccesses: z.array(text),
}) satisfies z.ZodType<PlannedStep>;
