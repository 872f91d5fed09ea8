/** The sentences that the engine itself puts into the names of lines. */
export const SAID = [
  "labour",
  "opening",
  "sundries",
  "lineOff",
  "discount",
  "amountOff",
  "roundedDown",
  "variation",
  "lessFor",
  "offWhole",
] as const;

/**
 * What of a line's name is the engine's own: which sentence it is, and how it stands in the name in English. The rest (a grade, a
 * share, a line that something comes off) are values. Papers in another language put their own words in its place.
 */
export interface LineSaid {
  readonly what: (typeof SAID)[number];
  readonly english: string;
}

/** What of a name the engine said, as a line carries it. */
export const saying = (what: LineSaid["what"], english: string): { readonly said: readonly LineSaid[] } => ({
  said: [{ what, english }],
});

/** What a line says of another one: its own words, then those of the other's name. */
export const sayingOf = (
  { said }: { readonly said: readonly LineSaid[] },
  other: { readonly said?: readonly LineSaid[] },
): { readonly said: readonly LineSaid[] } => ({ said: [...said, ...(other.said ?? [])] });

/** What a line carries on of another one that it is named as. */
export const saidAs = ({
  said,
}: {
  readonly said?: readonly LineSaid[] | undefined;
}): { readonly said?: readonly LineSaid[] } => (said ? { said } : {});

/** A line's name with the engine's own words in those of a paper. */
export function nameIn(
  line: { readonly name: string; readonly said?: readonly LineSaid[] | undefined },
  words: Readonly<Record<LineSaid["what"], string>>,
): string {
  return (line.said ?? []).reduce(
    (name, { what, english }) => name.replace(english, () => words[what]),
    line.name,
  );
}
