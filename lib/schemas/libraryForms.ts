import { z } from "zod";
import type { LibraryEntry, Torque } from "../domain/library/entry";
import { FAMILY_KEYS, PLACE_KEYS } from "../domain/library/places";
import { isObject } from "../domain/packages/taking";
import { settingDef } from "../domain/tuning/settings";
import { WEAR_KEYS } from "../domain/tuning/wear";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { keys, minutes, name, recheckFields, recheckFrom, text, ticked } from "./recipeFields";
import { holdRows, rows } from "./recipeRows";
import { readTyped } from "./typedNumber";

const lines = (most: number, longest: number) =>
  z
    .string()
    .max(13_000)
    .default("")
    .transform((typed) =>
      typed
        .split(/\r?\n/)
        .map((line) => line.trim())
        .filter(Boolean),
    )
    .pipe(
      z
        .array(oneLine(longest, `Keep each line within ${longest} characters.`))
        .max(most, `Keep this within ${most} lines.`),
    );

const torqueRows = rows<Torque>(20, ["where", "newtonMetres", "source"], (row, tell) => {
  const [where, source] = [(row.where ?? "").trim(), (row.source ?? "").trim()];
  const figure = readTyped(row.newtonMetres ?? "");
  if (where === "") return tell("where", "Say which screw, bolt or nut.");
  if (where.length > 50) return tell("where", "Keep this within 50 characters.");
  if (source.length > 50) return tell("source", "Keep this within 50 characters.");
  if (figure === null) return { where, source };
  if (figure === undefined || figure <= 0 || figure > 500)
    return tell("newtonMetres", "Enter a torque above 0, to 500 N·m, or leave it empty.");
  if (source === "")
    return tell("source", "Say where this torque is from: a manual and page, or who measured it.");
  return { where, newtonMetres: figure, source };
});

/** Which entry a form is of; without an id, a new one. */
const ref = {
  id: id.optional(),
  version: version.optional(),
  over: z.record(z.string().max(40), z.string().max(40)).optional(),
};
const head = {
  place: z.enum(PLACE_KEYS, "Choose where it belongs."),
  families: z.array(z.enum(FAMILY_KEYS)).max(FAMILY_KEYS.length).default([]),
  source: oneLine(120, "Keep this within 120 characters.").default(""),
};
const fastened = { torques: torqueRows, threadlocker: lines(20, 80), ...recheckFields };
const stepWords = oneLine(120, "Keep this within 120 characters.").default("");
const words = oneLine(300, "Keep this within 300 characters.").min(
  1,
  "Write what is to be read on the card.",
);

type Unkeyed<T> = T extends unknown ? Omit<T, "key"> : never;
/** An entry as a form says it; its key is made of its name once, or is the one it has. */
export type EntrySaid = Unkeyed<LibraryEntry>;

export const AccessEntryForm = z
  .object({
    ...ref,
    ...head,
    name,
    ...fastened,
    openAs: stepWords,
    closeAs: stepWords,
    fuelOpen: ticked,
    openMinutes: minutes(0),
    closeMinutes: minutes(0),
    needs: keys,
    excludes: keys,
    closingChecks: lines(40, 300),
    cautions: lines(40, 300),
    tools: lines(40, 300),
  })
  .transform((form, context) => {
    const { id: own, version: seen, over, openAs, closeAs, fuelOpen, ...rest } = form;
    const { recheckWhat, recheckKm, recheckDays, ...item } = rest;
    const again = recheckFrom({ recheckWhat, recheckKm, recheckDays }, (field, message) =>
      context.addIssue({ code: "custom", path: [field], message }),
    );
    const entry: EntrySaid = {
      kind: "access",
      ...item,
      ...again,
      ...(openAs ? { openAs } : {}),
      ...(closeAs ? { closeAs } : {}),
      ...(fuelOpen ? { fuelOpen } : {}),
    };
    return { id: own, version: seen, over, entry };
  });

export const OperationEntryForm = z
  .object({
    ...ref,
    ...head,
    name,
    ...fastened,
    instruction: text,
    minutes: minutes(1),
    accesses: keys,
    after: keys,
    holdPoints: holdRows,
    makes: keys.refine(
      (made) => made.length <= 20 && made.every((one) => settingDef(one) || isObject(one)),
      "Choose settings from the list.",
    ),
    makesSwarf: ticked,
    cautions: lines(40, 300),
    tools: lines(40, 300),
    inspects: z.array(z.enum(WEAR_KEYS)).max(WEAR_KEYS.length).default([]),
  })
  .transform((form, context) => {
    const { id: own, version: seen, over, makes, makesSwarf, ...rest } = form;
    const { recheckWhat, recheckKm, recheckDays, ...item } = rest;
    const again = recheckFrom({ recheckWhat, recheckKm, recheckDays }, (field, message) =>
      context.addIssue({ code: "custom", path: [field], message }),
    );
    const entry: EntrySaid = {
      kind: "operation",
      ...item,
      ...again,
      ...(makes.length > 0 ? { makes } : {}),
      ...(makesSwarf ? { makesSwarf } : {}),
    };
    return { id: own, version: seen, over, entry };
  });

export const CautionEntryForm = z
  .object({ ...ref, ...head, name: words })
  .transform(({ id: own, version: seen, over, ...item }) => ({
    id: own,
    version: seen,
    over,
    entry: { kind: "caution", ...item } satisfies EntrySaid as EntrySaid,
  }));

export const CheckEntryForm = z
  .object({
    ...ref,
    ...head,
    name: words,
    procedure: z
      .string()
      .trim()
      .max(60)
      .regex(/^[a-z0-9][a-z0-9-]*$/, "Choose a procedure.")
      .or(z.literal(""))
      .default(""),
  })
  .transform(({ id: own, version: seen, over, procedure, ...item }) => ({
    id: own,
    version: seen,
    over,
    entry: {
      kind: "check",
      ...item,
      ...(procedure ? { procedure } : {}),
    } satisfies EntrySaid as EntrySaid,
  }));

/** What a form of any kind of entry comes to. */
export interface EntryForm {
  readonly id?: number | undefined;
  readonly version?: number | undefined;
  readonly over?: Readonly<Record<string, string>> | undefined;
  readonly entry: EntrySaid;
}

export const RetireEntrySchema = z.object({ id, version, active: z.enum(["yes", "no"]) });

/** Entries picked into a package's draft, as one option where it is given a name. */
export const PickEntriesSchema = z.object({
  packageId: id,
  entries: z.array(z.string().max(60)).min(1, "Tick at least one.").max(100, "Tick 100 at most."),
  option: oneLine(120, "Keep the name within 120 characters.").default(""),
  grade: z.string().trim().max(60).default(""),
});

/** Changes of the library taken into a draft, or left. */
export const AnswerOffersSchema = z.object({
  packageId: id,
  answer: z.enum(["take", "leave"]),
  /** The entry and the print that was shown, as “key print”. */
  offers: z
    .array(
      z
        .string()
        .max(130)
        .regex(/^\S+ \S+$/, "Tick one of those shown."),
    )
    .min(1, "Tick at least one.")
    .max(200)
    .transform((all) => all.map((one) => one.split(" ") as [entry: string, print: string])),
});
