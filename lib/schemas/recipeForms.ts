import { z } from "zod";
import type {
  Access,
  HoldPoint,
  Operation,
  OptionGroup,
  PartNeed,
  Rule,
  SettingChange,
} from "../domain/packages/recipe";
import { SETTINGS } from "../domain/tuning/settings";
import { id } from "./packages";
import { milliOf } from "./quantity";
import { readTyped } from "./typedNumber";

/** The lists of a recipe that are edited one item at a time. */
export const RECIPE_PARTS = ["groups", "options", "operations", "accesses", "rules"] as const;
export type RecipePart = (typeof RECIPE_PARTS)[number];

const name = z.string().trim().min(1, "Give it a name.").max(120, "Keep the name within 120 characters.");
const key = z.string().trim().min(1, "Choose one.").max(60);
const keys = z.array(key).max(60).default([]);
const why = z
  .string()
  .trim()
  .min(1, "Say why the rule is there.")
  .max(300, "Keep this within 300 characters.");
const text = z.string().trim().max(2000, "Keep this within 2,000 characters.").default("");
const ticked = z
  .string()
  .optional()
  .transform((value) => value !== undefined);
/** One entry a line. */
const lines = z
  .string()
  .max(8000)
  .default("")
  .transform((typed) =>
    typed
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter(Boolean),
  )
  .pipe(z.array(z.string().max(2000)).max(40, "Keep this within 40 lines."));
const minutes = (least: number) =>
  z
    .string()
    .default("")
    .transform((typed, context): number => {
      const value = readTyped(typed);
      if (typeof value === "number" && Number.isInteger(value) && value >= least && value <= 6000)
        return value;
      context.addIssue({ code: "custom", message: `Enter whole minutes from ${least} to 6000.` });
      return z.NEVER;
    });

type Cells = Readonly<Record<string, string>>;
interface Told {
  addIssue(issue: { code: "custom"; path: string[]; message: string }): void;
}

/** Rows of a form, `name.0.cell`: a row whose `cells` are all blank is none; `read` answers undefined where it told a fault. */
function rows<T>(
  most: number,
  cells: readonly string[],
  read: (row: Cells, tell: (cell: string, message: string) => undefined) => T | undefined,
) {
  return z
    .record(z.string().regex(/^\d{1,3}$/), z.record(z.string(), z.string().max(500)))
    .default({})
    .transform((given, context) => {
      const told = context as unknown as Told;
      const filled = Object.entries(given)
        .sort(([a], [b]) => Number(a) - Number(b))
        .filter(([, row]) => cells.some((cell) => (row[cell] ?? "").trim() !== ""));
      const out = filled.slice(0, most).map(([at, row]) =>
        read(row, (cell, message) => {
          told.addIssue({ code: "custom", path: [at, cell], message });
          return undefined;
        }),
      );
      return out.some((item) => item === undefined) ? z.NEVER : (out as T[]);
    });
}

const partRows = rows<PartNeed>(60, ["what"], (row, tell) => {
  const what = (row.what ?? "").trim();
  const quantityMilli = milliOf((row.quantity ?? "").trim() || "1");
  if (what.length > 60) return tell("what", "Keep this within 60 characters.");
  if (quantityMilli === null || quantityMilli <= 0)
    return tell("quantity", "Enter a quantity above nothing, such as 1 or 2.5.");
  if (row.kind === "mainJet" || row.kind === "pilotJet")
    return { kind: "jet", setting: row.kind, family: what, quantityMilli };
  return { kind: "part", code: what, quantityMilli };
});

const changeRows = rows<SettingChange>(20, ["setting"], (row, tell) => {
  const setting = row.setting ?? "";
  if (!SETTINGS.some((s) => s.key === setting)) return tell("setting", "Choose a setting.");
  if (row.change === "computed") return { setting, change: "computed" };
  const value = readTyped(row.value ?? "");
  if (typeof value !== "number") return tell("value", "Enter the value.");
  return { setting, change: row.change === "add" ? "add" : "set", value };
});

const holdRows = rows<HoldPoint>(20, ["name"], (row, tell) => {
  const holdName = (row.name ?? "").trim();
  if (holdName.length > 120) return tell("name", "Keep this within 120 characters.");
  if (row.kind === "signature") return { kind: "signature", name: holdName };
  const [low, high, step] = ["low", "high", "step"].map((cell) => readTyped(row[cell] ?? ""));
  if (low === undefined) return tell("low", "Enter a number, or leave it empty.");
  if (high === undefined) return tell("high", "Enter a number, or leave it empty.");
  if (step === undefined || (step !== null && step <= 0))
    return tell("step", "Enter a number above nothing, or leave it empty.");
  if (low === null && high === null) return tell("low", "Give at least one limit.");
  if (low !== null && high !== null && low > high) return tell("low", "The low limit is above the high one.");
  const unit = (row.unit ?? "").trim().slice(0, 20);
  return {
    kind: "reading",
    name: holdName,
    ...(unit ? { unit } : {}),
    ...(low === null ? {} : { low }),
    ...(high === null ? {} : { high }),
    ...(step === null ? {} : { step }),
  };
});

/** Which item is edited: its key (blank for a new one), and the print of it that the form was drawn from. */
const item = {
  packageId: id,
  key: z.string().max(60).default(""),
  seen: z.string().max(64).default(""),
  over: z.record(z.string().regex(/^\d{1,9}$/), z.string()).optional(),
};

export const GroupFormSchema = z
  .object({ ...item, name, choose: z.enum(["exactly one", "at most one", "any"], "Choose how many.") })
  .transform(({ name: named, choose, ...rest }) => ({
    ...rest,
    item: { name: named, choose } satisfies Omit<OptionGroup, "key">,
  }));

export const OptionFormSchema = z
  .object({
    ...item,
    name,
    group: key,
    plain: text,
    operations: keys,
    parts: partRows,
    changes: changeRows,
    cautions: lines,
    preset: ticked,
    roadUse: ticked,
    fixedPrice: z.string().trim().max(30).default(""),
  })
  .transform(({ packageId, key: own, seen, over, fixedPrice, ...rest }) => ({
    packageId,
    key: own,
    seen,
    over,
    fixedPrice,
    item: rest,
  }));

export const OperationFormSchema = z
  .object({
    ...item,
    name,
    instruction: text,
    minutes: minutes(1),
    grade: key,
    accesses: keys,
    after: keys,
    parts: partRows,
    holdPoints: holdRows,
    cautions: lines,
    tools: lines,
  })
  .transform(({ packageId, key: own, seen, over, ...rest }) => ({
    packageId,
    key: own,
    seen,
    over,
    item: rest satisfies Omit<Operation, "key">,
  }));

export const AccessFormSchema = z
  .object({
    ...item,
    name,
    openMinutes: minutes(0),
    closeMinutes: minutes(0),
    needs: keys,
    excludes: keys,
    closingChecks: lines,
    cautions: lines,
    tools: lines,
  })
  .transform(({ packageId, key: own, seen, over, ...rest }) => ({
    packageId,
    key: own,
    seen,
    over,
    item: rest satisfies Omit<Access, "key">,
  }));

const optionalKey = z.string().trim().max(60).default("");
export const RuleFormSchema = z
  .object({
    ...item,
    kind: z.enum(["needs", "excludes", "warns", "only when"]),
    option: key,
    anyOf: keys,
    other: optionalKey,
    with: optionalKey,
    without: optionalKey,
    fact: optionalKey,
    op: z.enum(["=", "!=", "<", "<=", ">", ">="]).default("="),
    value: z.string().trim().max(60).default(""),
    why,
  })
  .transform((form, context) => {
    const { packageId, key: own, seen, over, kind, option } = form;
    const rule = ruleOf(form, (path, message) => context.addIssue({ code: "custom", path: [path], message }));
    return rule ? { packageId, key: own, seen, over, item: { kind, option, ...rule } as Rule } : z.NEVER;
  });

interface RuleForm {
  readonly kind: Rule["kind"];
  readonly anyOf: readonly string[];
  readonly other: string;
  readonly with: string;
  readonly without: string;
  readonly fact: string;
  readonly op: string;
  readonly value: string;
  readonly why: string;
}

function ruleOf(form: RuleForm, tell: (field: string, message: string) => void): object | null {
  const { kind, why: because } = form;
  const missing = (field: string, message: string) => {
    tell(field, message);
    return null;
  };
  if (kind === "needs")
    return form.anyOf.length > 0
      ? { anyOf: form.anyOf, why: because }
      : missing("anyOf", "Tick what it needs one of.");
  if (kind === "excludes")
    return form.other
      ? { other: form.other, why: because }
      : missing("other", "Choose what it does not go with.");
  if (kind === "warns") {
    if (!form.with && !form.without)
      return missing("with", "Choose what it is warned about with, or without.");
    return {
      ...(form.without ? { without: form.without } : {}),
      ...(form.with ? { with: form.with } : {}),
      why: because,
    };
  }
  if (!form.fact) return missing("fact", "Choose what the model card must say.");
  if (!form.value) return missing("value", "Enter what it is compared with.");
  const typed = readTyped(form.value);
  return {
    fact: form.fact,
    op: form.op,
    value: typeof typed === "number" ? typed : form.value,
    why: because,
  };
}

const part = z.enum(RECIPE_PARTS);
/** One button of a list: which item goes up, down or out. */
export const ArrangeSchema = z.object({
  packageId: id,
  part,
  act: z
    .string()
    .max(80)
    .regex(/^(up|down|out):.+$/, "Press one of the buttons.")
    .transform((act) => {
      const at = act.indexOf(":");
      return { way: act.slice(0, at) as "up" | "down" | "out", key: act.slice(at + 1) };
    }),
});
export const BeginDraftSchema = z.object({ packageId: id });

export type ItemRef = {
  readonly packageId: number;
  readonly key: string;
  readonly seen: string;
  readonly over?: Record<string, string> | undefined;
};
