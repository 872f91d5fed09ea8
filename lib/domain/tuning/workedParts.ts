import { fittedSpring } from "./fittedSpring";
import { flowsAfter } from "./flowFigures";
import { type ModelledParts, modelledParts } from "./modelledParts";
import { changedParts, type PartTarget } from "./partChange";
import { deliveredSpring, settledSpring } from "./springCut";
import type { FoundCarburettor, SettingValues, TargetInput } from "./targetTypes";

/** What work leaves of a carburettor's settings and described parts. */
export interface WorkedParts {
  /** `changed`, with what follows from them of the spring. */
  readonly values: SettingValues;
  readonly parts: readonly PartTarget[];
  readonly before: ModelledParts;
  readonly after: ModelledParts;
}

/**
 * Settings as work changes them and the parts described on the carburettor, brought together: a cut spring's length and coils, the
 * parts that follow from changed settings, spring and flows before and after. Throws Refusal where length and coils of a spring
 * contradict each other. Source: springCut.ts, partChange.ts.
 */
export function workedParts(
  input: Pick<TargetInput, "card" | "partChanges">,
  found: Pick<FoundCarburettor, "parts">,
  asFound: SettingValues,
  changed: SettingValues,
): WorkedParts {
  const { springCoils: _, ...uncounted } = changed;
  const put = input.partChanges?.find((part) => part.kind === "spring");
  const kept = put?.change === "exchanged" && put.coils === null ? uncounted : changed;
  const values = put ? kept : { ...kept, ...settledSpring(asFound, kept, deliveredSpring(input.card)) };
  const parts = changedParts(found.parts ?? [], input.partChanges ?? [], asFound, values);
  const before = modelledParts(found.parts);
  const sprung = parts.find((part) => part.after.kind === "spring");
  return {
    values,
    parts,
    before,
    after: {
      spring: sprung ? fittedSpring([sprung.after]) : before.spring,
      flows: flowsAfter(before.flows, parts),
    },
  };
}
