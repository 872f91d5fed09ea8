import type { FittedSpring } from "./fittedSpring";
import type { SettingValues } from "./targetTypes";

/** A part that was fitted to a bike, by its kind in stock. */
export interface FittedPart {
  readonly kind: string;
  readonly name: string;
}

/** Kinds of part that change the mixture, and why the fuel model does not see them. Source: judgement. */
const CHANGES: Readonly<Record<string, string>> = {
  needle: "its shape is on no sheet",
  filter: "the model has no filter",
};

/**
 * Work on a bike that the fuel model cannot see, in a sentence each; empty where it sees all. What such a bike teaches holds
 * for that bike and not for its model. An exchanged spring is seen where it is described with its
 * rate, another where the sheet says another length or coils than delivered.
 * Source: judgement.
 */
export function unseenWork(
  parts: readonly FittedPart[],
  fitted: SettingValues,
  delivered: SettingValues,
  spring?: FittedSpring,
): readonly string[] {
  const told =
    spring?.exchanged === true ||
    (["springLengthMm", "springCoils"] as const).some(
      (key) => fitted[key] !== undefined && fitted[key] !== delivered[key],
    );
  const said = [...new Map(parts.map((p) => [p.kind + p.name, p])).values()].flatMap((part) => {
    const why = CHANGES[part.kind];
    if (why) return [`${part.name} was fitted: ${why}.`];
    return part.kind === "spring" && !told
      ? [`${part.name} was fitted: the sheet says the delivered spring.`]
      : [];
  });
  const guessed = spring?.exchanged === true && spring.rateNPerM === null;
  return guessed ? [...said, "The slide spring was exchanged: its rate was not measured."] : said;
}
