import { z } from "zod";
import { ENTRY_KINDS, type LibraryEntry } from "../domain/library/entry";
import { FAMILY_KEYS, PLACE_KEYS } from "../domain/library/places";
import { WEAR_KEYS } from "../domain/tuning/wear";
import { fileIssues, jsonOf } from "./fileIssues";
import { oneLine } from "./oneLine";
import { HoldPointSchema, RecheckSchema } from "./recipe";

/** Most entries that a shop's library holds. */
export const MOST_ENTRIES = 300;

const key = z
  .string()
  .trim()
  .min(1, "A key is missing.")
  .max(60)
  .regex(/^[a-z0-9][a-z0-9-]*$/, "A key is of small letters, figures and hyphens.");
const keys = z.array(key).max(60);
const line = oneLine(300).min(1);
const lines = z.array(line).max(40);
const minutes = z.int().min(0).max(6000);
const head = {
  key,
  place: z.enum(PLACE_KEYS),
  families: z.array(z.enum(FAMILY_KEYS)).max(FAMILY_KEYS.length),
  source: oneLine(120),
};
const name = oneLine(120).min(1, "A name is missing.");
const fastened = {
  torques: z
    .array(
      z
        .strictObject({
          where: oneLine(50).min(1),
          newtonMetres: z.number().positive().max(500).exactOptional(),
          source: oneLine(50),
        })
        .refine(
          (torque) => torque.newtonMetres === undefined || torque.source !== "",
          "A torque needs its source.",
        ),
    )
    .max(20),
  threadlocker: z.array(oneLine(80).min(1)).max(20),
  recheck: RecheckSchema.exactOptional(),
};

/** An entry as it is kept and as files carry it. */
export const LibraryEntrySchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("access"),
    ...head,
    name,
    ...fastened,
    openAs: oneLine(120).exactOptional(),
    closeAs: oneLine(120).exactOptional(),
    fuelOpen: z.boolean().exactOptional(),
    openMinutes: minutes,
    closeMinutes: minutes,
    needs: keys,
    excludes: keys,
    closingChecks: lines,
    cautions: lines,
    tools: lines,
  }),
  z.strictObject({
    kind: z.literal("operation"),
    ...head,
    name,
    ...fastened,
    instruction: z.string().max(2000),
    minutes: z.int().min(1).max(6000),
    accesses: keys,
    after: keys,
    holdPoints: z.array(HoldPointSchema).max(20),
    makes: z.array(z.string().max(60)).max(20).exactOptional(),
    makesSwarf: z.boolean().exactOptional(),
    cautions: lines,
    tools: lines,
    inspects: z.array(z.enum(WEAR_KEYS)).max(WEAR_KEYS.length),
  }),
  z.strictObject({ kind: z.literal("caution"), ...head, name: line }),
  z.strictObject({ kind: z.literal("check"), ...head, name: line, procedure: key.exactOptional() }),
]) satisfies z.ZodType<LibraryEntry>;

/** A shop's library in a file: what export writes and import reads. */
export const LibraryFileSchema = z.strictObject({
  format: z.literal("throttlewright-library"),
  version: z.literal(1),
  entries: z.array(LibraryEntrySchema).max(MOST_ENTRIES),
});
export type LibraryFile = z.output<typeof LibraryFileSchema>;

/** A library's file as text, each fault told at its place. */
export const ImportLibrarySchema = z.object({
  file: z
    .string()
    .trim()
    .min(1, "Choose a file, or paste its text here.")
    .max(400_000, "This is longer than any library can be.")
    .transform((text, context) => {
      const say = (message: string) => {
        context.addIssue({ code: "custom", message });
        return z.NEVER;
      };
      const json = jsonOf(text);
      if ("failed" in json) return say(json.failed);
      const { format, version } = (json.value ?? {}) as { format?: unknown; version?: unknown };
      if (format !== "throttlewright-library" || version !== 1)
        return say(
          "This is not a library: it should begin with the format “throttlewright-library”, version 1.",
        );
      const file = LibraryFileSchema.safeParse(json.value);
      if (file.success) return file.data.entries as readonly LibraryEntry[];
      for (const { path, message } of fileIssues(file.error.issues, json.value).slice(0, 300))
        context.addIssue({ code: "custom", path: [...path], message });
      return z.NEVER;
    }),
});

/** Entries of the starting library to take over: those named, or all. */
export const TakeEntriesSchema = z.object({
  all: z.string().max(5).optional(),
  entries: z.array(z.string().max(60)).max(MOST_ENTRIES).default([]),
});

/** How the library is narrowed. */
export const LibraryQuery = z.object({
  q: z.string().max(200).catch("").default(""),
  kind: z.enum(ENTRY_KINDS).optional().catch(undefined),
  family: z.enum(FAMILY_KEYS).optional().catch(undefined),
  place: z.enum(PLACE_KEYS).optional().catch(undefined),
});
export type LibraryQueryInput = z.output<typeof LibraryQuery>;
