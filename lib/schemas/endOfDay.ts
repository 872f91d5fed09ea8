import { z } from "zod";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";
import { blank } from "./stockFields";

/** Ways that money moves, as a sheet's rows begin with them. */
export const METHOD_NAMES: Readonly<Record<string, string>> = {
  cash: "Cash",
  card: "Card",
  transfer: "Bank transfer",
  balance: "Customers' balances",
};

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the day.");
const amount = z.string().trim().max(30, "Enter the amount in figures.").default("");
const reason = oneLine(200, "Keep this within 200 characters.").default("");

/** How many of each coin and note, by its value in minor units; empty where there is none. */
const pieces = z
  .record(
    z.string().regex(/^\d{1,7}$/),
    z
      .string()
      .trim()
      .regex(/^\d{0,5}$/, "Enter how many there are, in figures."),
  )
  .default({})
  .transform((counted) =>
    Object.entries(counted).map(([value, many]) => ({ valueMinor: Number(value), pieces: Number(many) })),
  );

export const CloseDaySchema = z.object({
  day,
  seen: z.string().max(80),
  float: amount,
  /** Coin by coin, or one sum. */
  way: z.enum(["pieces", "sum"]).default("sum"),
  pieces,
  sum: amount,
  left: amount,
  reason,
  terminal: amount,
  terminalReason: reason,
});

export const MoveCashSchema = z.object({
  day,
  way: z.enum(["in", "out"], "Choose which way it went."),
  amount: z.string().trim().min(1, "Enter the amount.").max(30, "Enter the amount in figures."),
  reason: oneLine(200, "Keep this within 200 characters.").pipe(z.string().min(3, "Say what it was for.")),
});

/** Which day is looked at, and where the list of closed ones goes on. */
export const DayQuery = z.object({
  day: day.optional().catch(undefined),
  after: z.preprocess(blank, recordId.optional()).catch(undefined),
});
