import { z } from "zod";
import { type Conditions, SEASONS } from "@/lib/domain/air/conditions";
import { cursorId } from "./ids";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { LETTERS } from "./quoteLife";
import { WISH_FIELDS } from "./wishes";

export const QUOTE_STATES = ["draft", "sent", "accepted", "declined", "expired", "replaced"] as const;
export type QuoteStateName = (typeof QUOTE_STATES)[number];

/** Blank is not 0, and a decimal comma is a decimal mark. */
const blank = (given: unknown) => {
  if (given === "" || given === undefined) return null;
  return typeof given === "string" ? given.trim().replace(",", ".") : given;
};
const optional = (low: number, high: number, unit: string) =>
  z.preprocess(
    blank,
    z
      .union([z.null(), z.coerce.number(`Enter a number of ${unit}, or leave it empty.`)])
      .refine(
        (n) => n === null || (n >= low && n <= high),
        `Enter ${low} to ${high} ${unit}, or leave it empty.`,
      ),
  );

/** The air that settings are computed for. Without a temperature it is the season's typical air at the altitude. */
export const ConditionsSchema = z.object({
  altitudeM: z.preprocess(
    (given) => blank(given) ?? Number.NaN,
    z.coerce
      .number("Enter the altitude in metres.")
      .min(-400, "Enter -400 m or more.")
      .max(5000, "Enter 5000 m or less."),
  ),
  season: z.enum(SEASONS, "Choose a season."),
  temperatureC: optional(-39, 55, "degrees C"),
  humidityPercent: optional(0, 100, "percent"),
  /** Of a setting sheet: station pressure as measured, and the month that stands in for what was not. */
  pressureHpa: optional(500, 1100, "hPa").optional(),
  month: z.coerce.number().int().min(1).max(12).optional(),
}) satisfies z.ZodType<Conditions>;

export const CreateQuoteSchema = z.object({
  bikeId: id,
  /** Blank: a quote that begins without works. */
  packageId: z.preprocess((v) => (v === "" ? undefined : v), id.optional()),
  title: oneLine(120, "Keep the title within 120 characters.").default(""),
  variationOfId: z.preprocess((v) => (v === "" ? undefined : v), id.optional()),
  /** The finding on that job which the quote answers. */
  findingId: z.preprocess((v) => (v === "" ? undefined : v), id.optional()),
});

const optionKeys = z.array(z.string().trim().min(1).max(70)).max(60).default([]);

/** A tick changed: the options ticked now, and the one just touched, which wins over others of its group. */
export const ChooseOptionsSchema = z
  .object({
    id,
    version,
    choices: optionKeys,
    /** Of each group of which one is chosen: the option, or nothing. */
    one: z.record(z.string().regex(/^\d{1,3}$/), z.string().trim().max(70)).default({}),
    touched: z.string().trim().max(70).default(""),
  })
  .transform(({ one, choices, ...rest }) => ({
    ...rest,
    choices: [...choices, ...Object.values(one).filter(Boolean)],
  }));
export const QuoteVersionSchema = z.object({ id, version });
/** Lets a draft go out below the least margin. */
export const AllowMarginSchema = QuoteVersionSchema.extend({
  reason: z.string().trim().min(3, "Say why, in a few words.").max(300, "Keep this under 300 characters."),
});
export type AllowMargin = z.output<typeof AllowMarginSchema>;
/** Sending: the kept alternatives that go along. */
export const SendQuoteSchema = QuoteVersionSchema.extend({
  /** What was sent already gets a new link. */
  anew: z.literal("on").optional(),
  alternatives: z.array(z.enum(LETTERS, "Choose A, B or C.")).max(3).default([]),
});
export const ReplaceQuoteSchema = QuoteVersionSchema.extend({ packageId: id });
export const RetitleQuoteSchema = QuoteVersionSchema.extend({
  title: oneLine(120, "Keep the title within 120 characters.").min(1, "Give it a title."),
});

const reason = z.string().trim().max(400, "Keep this within 400 characters.").default("");
export const DeclineQuoteSchema = QuoteVersionSchema.extend({ reason });
export const CustomerDeclineSchema = z.object({ reason });

const typedName = z
  .string("Type your name.")
  .pipe(oneLine(120, "Keep the name within 120 characters.").min(2, "Type the full name."));
const acknowledgements = z.array(z.string().max(60)).max(20).default([]);
const shownHash = z.string("Open the quote again.").regex(/^[0-9a-f]{64}$/, "Open the quote again.");

const extras = z
  .string()
  .max(600)
  .default("")
  .transform((text) => text.split(",").filter(Boolean))
  .pipe(z.array(z.string().max(70)).max(8));

/** The way shown; absent where the quote offers none. */
const alternative = z.string().max(8).optional();

export const CustomerAcceptSchema = z.object({
  typedName,
  acknowledgements,
  shownHash,
  extras,
  alternative,
  ...WISH_FIELDS,
});
export const AcceptForCustomerSchema = CustomerAcceptSchema.extend({
  revisionId: id,
  how: z.string().trim().min(3, "Say how they said yes: by phone, at the desk, by mail.").max(200),
});

const QUOTE_SORTS = ["number", "customer", "sent", "valid", "value"] as const;
const sorts = QUOTE_SORTS.flatMap((sort) => [sort, `-${sort}`] as const);

export const ListQuotesSchema = z.object({
  q: z.string().trim().max(80).optional().catch(undefined),
  sort: z.enum(sorts).optional().catch(undefined),
  kind: z.enum(["first", "variation"]).optional().catch(undefined),
  state: z.enum(QUOTE_STATES).optional().catch(undefined),
  after: cursorId,
});

type QuoteTyped = z.output<typeof CreateQuoteSchema>;
export type CreateQuote = Omit<QuoteTyped, "title"> & Partial<Pick<QuoteTyped, "title">>;
export type ChooseOptions = z.output<typeof ChooseOptionsSchema>;
export type QuoteVersion = z.output<typeof QuoteVersionSchema>;
export type ReplaceQuote = z.output<typeof ReplaceQuoteSchema>;
export type DeclineQuote = z.output<typeof DeclineQuoteSchema>;
export type ListQuotes = Partial<z.output<typeof ListQuotesSchema>>;
