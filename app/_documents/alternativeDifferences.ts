import type { FrozenAlternative } from "@/lib/data/documents/quote";
import { wordsIn } from "@/lib/words/words";

/** What sets one way apart from the others, and what is the same in each. */
export interface Differences {
  readonly common: readonly string[];
  readonly alternatives: readonly {
    readonly alternative: FrozenAlternative;
    /** What only some of the ways do. */
    readonly options: readonly string[];
    /** Changed settings that are not the same in each. */
    readonly settings: FrozenAlternative["settings"];
    readonly cautions: readonly string[];
    /** Minor units above the cheapest; 0 for that one. */
    readonly moreMinor: number;
  }[];
  readonly cheapest: FrozenAlternative;
  /** The least and the most lambda in any of them, so that their curves are drawn on one scale. */
  readonly lambda: readonly [number, number];
}

export const alternativeName = ({ letter, name }: { letter: string; name: string }, locale: string) =>
  letter === "" ? wordsIn(locale)("quotePage.asQuoted") : [letter, name].filter(Boolean).join(", ");

export function differencesOf(alternatives: readonly FrozenAlternative[]): Differences | null {
  const [first, ...rest] = alternatives;
  if (!first || rest.length === 0) return null;
  const inEach = (has: (alternative: FrozenAlternative) => boolean) => alternatives.every(has);
  const common = first.options.filter((name) => inEach((w) => w.options.includes(name)));
  const cheapest = alternatives.reduce((least, w) => (w.grossMinor < least.grossMinor ? w : least), first);
  const values = alternatives.flatMap((w) => w.curve.flatMap((p) => [p.before, p.after]));
  return {
    common,
    cheapest,
    lambda: [Math.min(...values), Math.max(...values)],
    alternatives: alternatives.map((alternative) => ({
      alternative,
      options: alternative.options.filter((name) => !common.includes(name)),
      settings: alternative.settings.filter(
        (s) =>
          s.value !== s.from &&
          !inEach((w) =>
            w.settings.some(
              (o) => o.carburettor === s.carburettor && o.setting === s.setting && o.value === s.value,
            ),
          ),
      ),
      cautions: alternative.cautions.filter((text) => !inEach((w) => w.cautions.includes(text))),
      moreMinor: alternative.grossMinor - cheapest.grossMinor,
    })),
  };
}
