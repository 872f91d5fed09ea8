import { z } from "zod";
import type { Access, Operation, Option, OptionGroup } from "../domain/packages/recipe";
import { isObject } from "../domain/packages/taking";
import { COMPLAINT_KEYS } from "../domain/tuning/complaints";
import { settingDef } from "../domain/tuning/settings";
import { WEAR_KEYS } from "../domain/tuning/wear";
import { leftPartFields, leftPartsFrom } from "./leftParts";
import { needleWorkFields, needleWorkFrom } from "./needleWork";
import { key, keys, lines, minutes, name, recheckFields, recheckFrom, text, ticked } from "./recipeFields";
import { itemRef, parted } from "./recipeItem";
import { changeRows, holdRows, partRows } from "./recipeRows";

type Said<T> = Omit<T, "key">;

const telling =
  (context: { addIssue(issue: { code: "custom"; path: string[]; message: string }): void }) =>
  (field: string, message: string) =>
    context.addIssue({ code: "custom", path: [field], message });

export const GroupFormSchema = z
  .object({ ...itemRef, name, choose: z.enum(["exactly one", "at most one", "any"], "Choose how many.") })
  .transform((form) => {
    const { item, ...ref } = parted(form);
    return { ...ref, item: item satisfies Said<OptionGroup> };
  });

export const OptionFormSchema = z
  .object({
    ...itemRef,
    name,
    group: key,
    plain: text,
    operations: keys,
    parts: partRows,
    changes: changeRows,
    answers: z.array(z.enum(COMPLAINT_KEYS)).max(COMPLAINT_KEYS.length).default([]),
    ...needleWorkFields,
    ...leftPartFields,
    cautions: lines,
    preset: ticked,
    roadUse: ticked,
    fixedPrice: z.string().trim().max(30).default(""),
  })
  .transform(
    (
      {
        fixedPrice,
        needleWork,
        needleFrom,
        needleTo,
        needleBy,
        needleStations,
        needleGauge,
        needleCode,
        leavesSpring,
        leavesFreeMm,
        leavesWireMm,
        leavesCoils,
        leavesRate,
        leavesHoles,
        leavesOpenings,
        leavesFilter,
        leavesFilterFlow,
        leavesFilterAt,
        leavesSilencer,
        leavesSilencerFlow,
        leavesSilencerAt,
        ...form
      },
      context,
    ) => {
      const { item, ...ref } = parted(form);
      const said = { needleWork, needleFrom, needleTo, needleBy, needleStations, needleGauge, needleCode };
      const needle = needleWorkFrom(said, (field, message) =>
        context.addIssue({ code: "custom", path: [field], message }),
      );
      const leaves = leftPartsFrom(
        {
          leavesSpring,
          leavesFreeMm,
          leavesWireMm,
          leavesCoils,
          leavesRate,
          leavesHoles,
          leavesOpenings,
          leavesFilter,
          leavesFilterFlow,
          leavesFilterAt,
          leavesSilencer,
          leavesSilencerFlow,
          leavesSilencerAt,
        },
        (field, message) => context.addIssue({ code: "custom", path: [field], message }),
      );
      const objects = { ...(needle ? { needle } : {}), ...(leaves.length > 0 ? { leaves } : {}) };
      return { ...ref, fixedPrice, item: { ...item, ...objects } satisfies Said<Option> };
    },
  );

export const OperationFormSchema = z
  .object({
    ...itemRef,
    name,
    instruction: text,
    minutes: minutes(1),
    grade: key,
    accesses: keys,
    after: keys,
    parts: partRows,
    holdPoints: holdRows,
    makes: keys.refine(
      (settings) =>
        settings.length <= 20 && settings.every((setting) => settingDef(setting) || isObject(setting)),
      "Choose settings from the list.",
    ),
    makesSwarf: ticked,
    cautions: lines,
    tools: lines,
    inspects: z.array(z.enum(WEAR_KEYS)).max(WEAR_KEYS.length).default([]),
    ...recheckFields,
  })
  .transform(({ recheckWhat, recheckKm, recheckDays, ...form }, context) => {
    const { item, ...ref } = parted(form);
    const again = recheckFrom({ recheckWhat, recheckKm, recheckDays }, telling(context));
    return { ...ref, item: { ...item, ...again } satisfies Said<Operation> };
  });

const stepWords = z.string().trim().max(120, "Keep this within 120 characters.").default("");

export const AccessFormSchema = z
  .object({
    ...itemRef,
    name,
    openAs: stepWords,
    closeAs: stepWords,
    fuelOpen: ticked,
    openMinutes: minutes(0),
    closeMinutes: minutes(0),
    needs: keys,
    excludes: keys,
    closingChecks: lines,
    cautions: lines,
    tools: lines,
    ...recheckFields,
  })
  .transform(({ openAs, closeAs, recheckWhat, recheckKm, recheckDays, ...form }, context) => {
    const { item, ...ref } = parted(form);
    const again = recheckFrom({ recheckWhat, recheckKm, recheckDays }, telling(context));
    const said = { ...item, ...again, ...(openAs ? { openAs } : {}), ...(closeAs ? { closeAs } : {}) };
    return { ...ref, item: said satisfies Said<Access> };
  });
