/** Lines of one work, or of none: what several share, sundries, discounts. */
export interface WorkLines<W, L> {
  readonly work: W | null;
  readonly lines: readonly L[];
}

/** Lines under the works they are of, in the works' order, then those of no single work. Without works all are of none. */
export function byWork<W extends { readonly key: string }, L extends { readonly work?: string | undefined }>(
  works: readonly W[],
  lines: readonly L[],
): WorkLines<W, L>[] {
  const listed = works.map((work) => ({ work, lines: lines.filter((line) => line.work === work.key) }));
  const rest = lines.filter((line) => !works.some((work) => work.key === line.work));
  return [...listed, ...(rest.length > 0 ? [{ work: null, lines: rest }] : [])];
}
