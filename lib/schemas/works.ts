import { z } from "zod";
import type { PartWanted, WrittenWork } from "@/lib/domain/packages/work";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { HoldPointSchema, OptionKitSchema, PartNeedSchema, SettingChangeSchema } from "./recipe";
import { lines } from "./recipeFields";
import { changeRows, holdRows, partRows, rows } from "./recipeRows";
import { readTyped } from "./typedNumber";

/** Most works of one quote. */
export const MOST_WORKS = 20;

const name = oneLine(120, "Keep the name within 120 characters.").min(1, "Say what it is.");
const plain = z.string().trim().max(2000, "Keep this within 2,000 characters.").default("");
const money = z.string().trim().max(30).default("");
const draft = { id, version };
/** Key of a work; the first work of a quote may have an empty one. */
const work = z.string().trim().max(8);
/** Blank writes a new work. */
const changed = { ...draft, work: work.optional(), isNew: z.enum(["yes", "no"]).default("yes") };

const wholeMinutes = (typed: string | undefined, least: number): number | null => {
  const value = readTyped(typed ?? "");
  return typeof value === "number" && Number.isInteger(value) && value >= least && value <= 6000
    ? value
    : null;
};

const stepRows = rows<WrittenWork["steps"][number]>(6, ["minutes", "name"], (row, tell) => {
  const minutes = wholeMinutes(row.minutes, 1);
  if (minutes === null) return tell("minutes", "Enter whole minutes from 1 to 6000.");
  const grade = (row.grade ?? "").trim();
  if (grade === "" || grade.length > 60) return tell("grade", "Choose a grade.");
  const step = (row.name ?? "").trim();
  if (step.length > 120) return tell("name", "Keep this within 120 characters.");
  return { name: step, minutes, grade };
});

const accessRows = rows<WrittenWork["accesses"][number]>(6, ["name"], (row, tell) => {
  const access = (row.name ?? "").trim();
  if (access.length > 120) return tell("name", "Keep this within 120 characters.");
  const [openMinutes, closeMinutes] = [row.open, row.close].map((typed) =>
    wholeMinutes((typed ?? "").trim() || "0", 0),
  );
  if (openMinutes === null || openMinutes === undefined)
    return tell("open", "Enter whole minutes from 0 to 6000.");
  if (closeMinutes === null || closeMinutes === undefined)
    return tell("close", "Enter whole minutes from 0 to 6000.");
  return { name: access, openMinutes, closeMinutes };
});

const outsideMark = z.enum(["", "Z", "E", "O"]);
type OutsideMark = z.output<typeof outsideMark>;

/** Work bought outside, its amounts as typed: the data layer reads them in the shop's currency and locale. */
const outsideRows = rows<{ at: string; name: string; price: string; cost: string; taxMark: OutsideMark }>(
  6,
  ["name", "price"],
  (row, tell) => {
    const what = (row.name ?? "").trim();
    if (what === "" || what.length > 160) return tell("name", "Say what it is, within 160 characters.");
    const taxMark = outsideMark.safeParse((row.taxMark ?? "").trim());
    if (!taxMark.success) return tell("taxMark", "Choose how it is taxed.");
    const [price, cost] = [row.price ?? "", row.cost ?? ""].map((typed) => typed.trim());
    return { at: "", name: what, price: price ?? "", cost: cost ?? "", taxMark: taxMark.data };
  },
);

export const PackageWorkSchema = z.object({ ...draft, packageId: id });
export const WrittenWorkSchema = z.object({
  ...changed,
  name,
  plain,
  steps: stepRows,
  fixedPrice: money,
  parts: partRows,
  outside: outsideRows,
  accesses: accessRows,
  holdPoints: holdRows,
  changes: changeRows,
  cautions: lines,
});
export const PartsWorkSchema = z.object({
  ...changed,
  name: oneLine(120, "Keep the name within 120 characters.").default(""),
  parts: partRows,
});
export const TextWorkSchema = z.object({ ...changed, name, text: plain });
export const WorkRefSchema = z.object({ ...draft, work });
export const MoveWorkSchema = WorkRefSchema.extend({ by: z.enum(["up", "down"]) });
export const KeepWorkSchema = WorkRefSchema.extend({
  code: z
    .string()
    .trim()
    .min(1, "Give the package a short code.")
    .max(24, "Keep the code within 24 characters.")
    .regex(/^[A-Za-z0-9][A-Za-z0-9-]*$/, "Use letters, figures and hyphens, without spaces."),
});

export type PackageWorkInput = z.output<typeof PackageWorkSchema>;
export type WrittenWorkInput = z.output<typeof WrittenWorkSchema>;
export type PartsWorkInput = z.output<typeof PartsWorkSchema>;
export type TextWorkInput = z.output<typeof TextWorkSchema>;
export type WorkRef = z.output<typeof WorkRefSchema>;
export type MoveWorkInput = z.output<typeof MoveWorkSchema>;
export type KeepWorkInput = z.output<typeof KeepWorkSchema>;

const FORMAT = "throttlewright-work";
const head = { format: z.literal(FORMAT), version: z.literal(1), name: z.string().max(120) };
const quantityMilli = z.int().min(1).max(1_000_000_000);
const key = z.string().min(1).max(60);
const minutes = z.int().min(0).max(6000);
const minor = z.int().min(0).max(1_000_000_000);

const Written = z.object({
  ...head,
  plain: z.string().max(2000),
  steps: z.array(z.object({ name: z.string().max(120), minutes, grade: key })).max(6),
  parts: z.array(PartNeedSchema).max(60),
  outside: z
    .array(
      z.object({
        name: z.string().max(160),
        priceMinor: minor,
        costMinor: minor,
        taxMark: z.enum(["Z", "E", "O"]).exactOptional(),
      }),
    )
    .max(6),
  accesses: z
    .array(z.object({ name: z.string().min(1).max(120), openMinutes: minutes, closeMinutes: minutes }))
    .max(6),
  holdPoints: z.array(HoldPointSchema).max(20),
  changes: z.array(SettingChangeSchema).max(20),
  cautions: z.array(z.string().max(2000)).max(40),
  fixedPriceMinor: minor.exactOptional(),
  kits: z.array(OptionKitSchema).min(1).max(20).exactOptional(),
});
const Parts = z.object({
  ...head,
  parts: z.array(z.object({ code: key, quantityMilli })).max(60),
});
const Text = z.object({ ...head, text: z.string().max(2000) });

export const storedWritten = (json: unknown): WrittenWork => plainly(Written.parse(json));
export const storedParts = (json: unknown): { name: string; parts: PartWanted[] } =>
  plainly(Parts.parse(json));
export const storedText = (json: unknown): { name: string; text: string } => plainly(Text.parse(json));

/** What a work that is no package says, as it is kept. */
export const keptWork = <T extends object>(said: T) => ({ format: FORMAT, version: 1, ...said }) as const;

function plainly<T extends { format: string; version: number }>({
  format: _f,
  version: _v,
  ...said
}: T): Omit<T, "format" | "version"> {
  return said;
}
