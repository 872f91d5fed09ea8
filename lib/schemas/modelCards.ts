import { z } from "zod";
import { HOW_TYPED, MODEL_FACTS } from "@/lib/domain/tuning/modelFacts";
import { CARBURETTOR_TYPES } from "./carburettorTypes";
import { cursorId, recordId } from "./ids";
import {
  longText,
  neededNumber,
  neededText,
  numberProblem,
  readTyped,
  seenVersion,
  shortText,
  typedNumber,
} from "./typedNumber";

const how = z.enum(HOW_TYPED, "Say how it is known: measured, read off a part or paper, or assumed.");

/** What every model card must know: enough to open a bike on. */
export const modelCore = {
  make: neededText(60, "The make", "Tarrant"),
  model: neededText(60, "The model", "Drover 580"),
  displacementCc: neededNumber({ name: "Displacement", low: 20, high: 3000, unit: "cc", whole: true }),
  cylinders: neededNumber({ name: "Cylinders", low: 1, high: 6, whole: true }),
  carburettors: neededNumber({ name: "Carburettors", low: 1, high: 4, whole: true }),
  carburettorType: z.enum(CARBURETTOR_TYPES, "Choose constant vacuum or mechanical slide."),
};

export interface FactInput {
  readonly key: string;
  readonly value: number | null;
  readonly text: string | null;
  readonly how: (typeof HOW_TYPED)[number];
  readonly note: string;
}

/** Facts as typed: `facts.<key>.{value,how,note}`. A blank value means the fact is not known. */
const facts = z
  .record(
    z.string(),
    z.object({
      value: z.string().max(200).default(""),
      how: z.string().max(40).default(""),
      note: z.string().max(4000).default(""),
    }),
  )
  .default({})
  .transform((typed, context): FactInput[] => {
    const known: FactInput[] = [];
    const refuse = (key: string, part: string, message: string) =>
      context.addIssue({ code: "custom", path: [key, part], message });
    for (const fact of MODEL_FACTS) {
      const given = Object.hasOwn(typed, fact.key) ? typed[fact.key] : undefined;
      const text = given?.value.trim() ?? "";
      if (!given || text === "") continue;
      const said = how.safeParse(given.how);
      if (!said.success) {
        refuse(fact.key, "how", `${fact.name}: say how it is known: measured, read or assumed.`);
        continue;
      }
      const note = given.note.trim().slice(0, 300);
      if (fact.choices) {
        if (!fact.choices.some((choice) => choice.value === text))
          refuse(
            fact.key,
            "value",
            `${fact.name}: choose one of ${fact.choices.map((c) => c.name).join(", ")}.`,
          );
        else known.push({ key: fact.key, value: null, text, how: said.data, note });
        continue;
      }
      const value = readTyped(text);
      const problem = numberProblem(value ?? undefined, fact);
      if (problem) refuse(fact.key, "value", problem);
      else known.push({ key: fact.key, value: value ?? null, text: null, how: said.data, note });
    }
    for (const key of Object.keys(typed))
      if (!MODEL_FACTS.some((fact) => fact.key === key))
        refuse(key, "value", `"${key}" is no fact of a model card: leave it out.`);
    return known;
  });

export const ModelCardSchema = z
  .object({
    id: recordId.optional(),
    ...seenVersion,
    ...modelCore,
    yearFrom: typedNumber({ name: "First year", low: 1900, high: 2100, whole: true }),
    yearTo: typedNumber({ name: "Last year", low: 1900, high: 2100, whole: true }),
    serviceKm: typedNumber({ name: "Service distance", low: 100, high: 100_000, unit: "km", whole: true }),
    serviceMonths: typedNumber({ name: "Service time", low: 1, high: 120, unit: "months", whole: true }),
    mainFamily: shortText(60, "The drawer of main jets"),
    pilotFamily: shortText(60, "The drawer of pilot jets"),
    notes: longText(4000, "The notes"),
    facts,
  })
  .refine((card) => card.yearFrom === null || card.yearTo === null || card.yearFrom <= card.yearTo, {
    path: ["yearTo"],
    message: "The last year is before the first: swap them.",
  });
export type ModelCardInput = z.output<typeof ModelCardSchema>;

export const ModelCardQuery = z.object({ q: z.string().max(200).catch("").default(""), after: cursorId });
export type ModelCardQueryInput = z.output<typeof ModelCardQuery>;
