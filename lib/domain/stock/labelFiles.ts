/** Labels in one file: twenty full sheets, which print within half a second of a processor's time. */
export const LABELS_A_FILE = 480;
/** Labels asked for at once: more is taken for a slip. */
export const MOST_LABELS = 2000;

export interface LabelFile {
  /** First and one past the last label, from 0. */
  readonly from: number;
  readonly to: number;
  /** First free place on the file's first sheet, from 1. */
  readonly start: number;
}

/**
 * The files that `count` labels are printed in. The first begins at place `start` of a partly used sheet (1 to 24) and is
 * shorter by what is used there, so that every file but the last ends on a full sheet. No labels, no files.
 * Source: judgement.
 */
export function labelFiles(count: number, start: number): LabelFile[] {
  const files: LabelFile[] = [];
  for (let from = 0; from < count; ) {
    const first = from === 0 ? start : 1;
    const to = Math.min(count, from + LABELS_A_FILE - (first - 1));
    files.push({ from, to, start: first });
    from = to;
  }
  return files;
}
