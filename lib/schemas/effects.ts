import { z } from "zod";
import { EFFECT_KINDS, EFFECTS, SIDES, type Under } from "../domain/procedures/effects";
import { recordId } from "./ids";
import { ticked } from "./recipeFields";
import { THROTTLES } from "./rides";
import { shortText, typedNumber } from "./typedNumber";

/** Conditions as they are kept. */
export const UnderSchema = z.object({
  distanceM: z.number().optional(),
  rpm: z.number().optional(),
  throttle: z.enum(THROTTLES).optional(),
  standard: z.string().max(40).optional(),
  litres: z.number().optional(),
  km: z.number().optional(),
}) satisfies z.ZodType<Under>;

const FORM = {
  value: z.string().max(60).default(""),
  litres: typedNumber({ name: "The litres", low: 0.5, high: 2000, unit: "l" }),
  km: typedNumber({ name: "The distance", low: 20, high: 50_000, unit: "km" }),
  distanceM: typedNumber({ name: "The distance", low: 0.2, high: 20, unit: "m" }),
  rpm: typedNumber({ name: "The engine's speed", low: 500, high: 20_000, unit: "rpm", whole: true }),
  throttle: z.enum(["", ...THROTTLES]).default(""),
  standard: shortText(40, "The standard"),
  instrument: shortText(80, "The instrument"),
};

/** One figure; each kind asks for what makes it comparable. Fuel use is computed from litres and kilometres. */
export const EffectSchema = z
  .object({
    bikeId: recordId,
    jobId: recordId,
    side: z.enum(SIDES, "Say whether this is before the work or after it."),
    kind: z.enum(EFFECT_KINDS, "Say what is read."),
    note: shortText(300, "The note"),
    ...FORM,
  })
  .transform(({ value: typed, litres, km, distanceM, rpm, throttle, standard, ...form }, context) => {
    const tell = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    const { kind, instrument } = form;
    const def = EFFECTS[kind];
    if (kind === "noise" && distanceM === null) tell("distanceM", "Enter how far the meter stood away.");
    if ((kind === "noise" || kind === "power") && rpm === null) tell("rpm", "Enter the engine's speed.");
    if ((kind === "noise" || kind === "power") && instrument === "")
      tell("instrument", "Name the instrument.");
    if (kind === "power" && standard === "") tell("standard", "Name the standard it is corrected to.");
    if (kind === "lambda" && throttle === "") tell("throttle", "Choose the opening.");
    if (kind === "fuel" && litres === null) tell("litres", "Enter the litres of the fills.");
    if (kind === "fuel" && km === null) tell("km", "Enter the kilometres that they went for.");
    const range = { name: def.name, low: def.low, high: def.high, ...(def.unit ? { unit: def.unit } : {}) };
    const used = litres !== null && km !== null ? Number(((100 * litres) / km).toPrecision(6)) : 0;
    const read = typedNumber(range).safeParse(kind === "fuel" ? String(used) : typed);
    const value = read.data ?? null;
    const [wrong] = read.error?.issues ?? [];
    const where = kind === "fuel" ? "litres" : "value";
    if (wrong) tell(where, wrong.message);
    else if (value === null) tell(where, `${def.name} is blank: enter it.`);
    const all = { distanceM, rpm, throttle: throttle || null, standard: standard || null, litres, km };
    const keeps = {
      noise: ["distanceM", "rpm"],
      power: ["rpm", "standard"],
      lambda: ["throttle"],
      fuel: ["litres", "km"],
    };
    const wanted: readonly string[] = keeps[kind as keyof typeof keeps] ?? [];
    const under = UnderSchema.parse(
      Object.fromEntries(Object.entries(all).filter(([name, one]) => one !== null && wanted.includes(name))),
    );
    return { ...form, value: value ?? 0, under };
  });
export type EffectInput = z.output<typeof EffectSchema> & { key?: string | undefined };

export const WithdrawEffectSchema = z.object({
  effectId: recordId,
  version: recordId,
  why: z.string().trim().min(3, "Say why, in a few words.").max(300, "Keep this within 300 characters."),
});

/** Whether quotes tell customers what packages did here. */
export const TellEffectsSchema = z.object({ on: ticked });
