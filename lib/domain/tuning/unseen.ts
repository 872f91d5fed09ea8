import type { ModelledParts } from "./modelledParts";
import type { SettingValues } from "./targetTypes";

/** A part that was fitted to a bike, by its kind in stock. */
export interface FittedPart {
  readonly kind: string;
  readonly name: string;
}

/**
 * Work on a bike that the fuel model cannot see, in a sentence each; empty where it sees all. What such a bike teaches holds
 * for that bike and not for its model. An exchanged spring is seen where it is described with its rate, another where the sheet
 * says another length or coils than delivered. A filter is computed with between two known flows, and a model card knows none.
 * The last argument is what is described beside the sheet. Source: judgement.
 */
export function unseenWork(
  parts: readonly FittedPart[],
  fitted: SettingValues,
  delivered: SettingValues,
  { spring, flows }: ModelledParts = {},
): readonly string[] {
  const told =
    spring?.exchanged === true ||
    (["springLengthMm", "springCoils"] as const).some(
      (key) => fitted[key] !== undefined && fitted[key] !== delivered[key],
    );
  const why = (kind: string): string | null => {
    switch (kind) {
      case "needle":
        return "its shape is on no sheet";
      case "filter":
        return flows?.filter
          ? "its flow counts only against another known one"
          : "how freely it passes air was not described";
      case "spring":
        return told ? null : "the sheet says the delivered spring";
      default:
        return null;
    }
  };
  const said = [...new Map(parts.map((p) => [p.kind + p.name, p])).values()].flatMap(({ kind, name }) => {
    const unseen = why(kind);
    return unseen === null ? [] : [`${name} was fitted: ${unseen}.`];
  });
  const guessed = spring?.exchanged === true && spring.rateNPerM === null;
  return guessed ? [...said, "The slide spring was exchanged: its rate was not measured."] : said;
}
