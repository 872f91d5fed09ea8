import { z } from "zod";
import { cursorId } from "./ids";
import { binOrUsual, id, moneyE4, optional, orNothing, quantity, short, version, whole } from "./stockFields";

export const ORDER_STATES = ["draft", "ordered", "partReceived", "received", "cancelled"] as const;
export type OrderStateName = (typeof ORDER_STATES)[number];
export const ORDER_WORDS: Readonly<Record<OrderStateName, string>> = {
  draft: "draft",
  ordered: "ordered",
  partReceived: "part received",
  received: "received",
  cancelled: "cancelled",
};

const blank = (value: unknown) => (typeof value === "string" && value.trim() === "" ? undefined : value);
const day = z.preprocess(
  blank,
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter a day.")
    .optional(),
);
const ticked = z
  .literal("true")
  .optional()
  .transform((sent) => sent !== undefined);

export const SupplierSchema = z.object({
  id: z.preprocess(blank, id.optional()),
  version: z.preprocess(blank, version.optional()),
  name: short("Name", 80).min(1, "Give the supplier a name."),
  email: z.preprocess(
    (value) => (typeof value === "string" ? value.trim() : value),
    z.union([z.literal(""), z.email("Enter an e-mail address, or leave it empty.")]).default(""),
  ),
  phone: optional("Telephone", 60),
  address: z.string().trim().max(400, "Address: at most 400 letters.").optional().default(""),
  customerNumber: optional("Your number there", 60),
  leadDays: whole("Days to arrive", 400).transform((days) => days ?? null),
  note: optional("Note", 400),
  active: ticked,
});
export type SupplierInput = z.output<typeof SupplierSchema>;

export const PartSupplierSchema = z.object({
  partId: id,
  supplier: short("Supplier", 80).min(1, "Say who sells it."),
  code: optional("Supplier's code", 60),
  pack: orNothing(1e9, "Enter a number such as 10, or leave it empty.", 1000, 3),
  least: orNothing(1e9, "Enter a number such as 10, or leave it empty.", 1000, 3),
  cost: moneyE4.optional(),
  leadDays: whole("Days to arrive", 400),
  usual: ticked,
});
export type PartSupplierInput = z.output<typeof PartSupplierSchema>;

const KEY = /^(\d+)-(\d+)$/;
/** Suggested lines by "part-job" (job 0 is the shelf); those without a tick stay off. */
export const SuggestedSchema = z.object({
  supplierId: z.preprocess(blank, id.optional()),
  lines: z
    .record(
      z.string().regex(KEY),
      z.object({ take: ticked, quantity: z.preprocess(blank, quantity.optional()) }),
    )
    .default({})
    .transform((rows, context) => {
      const lines = Object.entries(rows).flatMap(([key, row]) => {
        const [, part, job] = KEY.exec(key) ?? [];
        if (!row.take || row.quantity === undefined) return [];
        return [{ partId: Number(part), jobId: Number(job) || undefined, quantityMilli: row.quantity }];
      });
      if (lines.length > 0) return lines;
      context.addIssue({ code: "custom", message: "Tick at least one part, with how much." });
      return z.NEVER;
    }),
});

export const DraftLineSchema = z.object({
  partId: id,
  quantity,
  supplierId: z.preprocess(blank, id.optional()),
  jobId: z.preprocess(blank, id.optional()),
  why: optional("Note", 200),
});
export const ChangeLineSchema = z.object({
  lineId: id,
  quantity: orNothing(2e9, "Enter how much; 0 takes the line off.", 1000, 3).transform((milli) => milli ?? 0),
  cost: moneyE4.optional(),
});
export const AddOrderLineSchema = z.object({
  supplierId: id,
  code: short("Part", 60).min(1, "Enter the part's code."),
  quantity,
});
export const PlaceSchema = z.object({
  orderId: id,
  version,
  dueOn: day,
  note: optional("Note", 400),
  mail: ticked,
});
export const DeliverySchema = z.object({
  orderId: id,
  why: optional("Delivery", 120),
  lines: z
    .record(
      z.string().regex(/^\d+$/),
      z.object({
        quantity: z.preprocess(blank, quantity.optional()),
        cost: moneyE4.optional(),
        bin: binOrUsual,
      }),
    )
    .default({})
    .transform((rows, context) => {
      const lines = Object.entries(rows).flatMap(([lineId, row]) =>
        row.quantity === undefined
          ? []
          : [
              {
                lineId: Number(lineId),
                quantityMilli: row.quantity,
                unitCostE4: row.cost,
                bin: row.bin,
              },
            ],
      );
      if (lines.length > 0) return lines;
      context.addIssue({ code: "custom", message: "Enter how much of at least one line came." });
      return z.NEVER;
    }),
});
export const CancelLineSchema = z.object({ lineId: id, why: short("Reason", 200).min(1, "Say why.") });
export const CancelOrderSchema = z.object({
  orderId: id,
  version,
  why: short("Reason", 200).min(1, "Say why."),
});
export const PostponeSchema = z.object({
  lineId: id,
  dueOn: z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the day it is due."),
});

export const OrderListSchema = z.object({
  state: z.enum(ORDER_STATES).optional().catch(undefined),
  supplier: cursorId,
  after: cursorId,
});
export type OrderListQuery = z.output<typeof OrderListSchema>;

/** A supplier's price list: its text, and which column holds which field. */
export const PriceListSchema = z.object({
  supplierId: id,
  fileName: z.string().max(200).default("file.csv"),
  text: z
    .string("Choose a file first.")
    .min(1, "Choose a file first.")
    .max(5_400_000, "The file is larger than 5 MB."),
  map: z
    .record(
      z.string(),
      z
        .string()
        .regex(/^\d{0,3}$/)
        .transform((column) => (column === "" ? null : Number(column))),
    )
    .default({}),
  mark: z.enum([".", ","]).default("."),
  /** The last day the list's prices are good for; nothing where it does not say. */
  goodUntil: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, "Enter a day, or leave it empty.")
    .transform((day) => day || null)
    .optional(),
});
export type PriceListInput = z.output<typeof PriceListSchema>;

/** Whose suggested lines are looked at; empty for all. */
export const SuggestedListSchema = z.object({ supplier: z.string().max(200).catch("").default("") });
