import { hundredths, paperRows } from "../paper";
import type { PaperMoney } from "./money";

/** Whether a priced paper, as printed, carries each line's amount in its order, and these sums. */
export async function readPrint(
  pdf: Uint8Array,
  name: string,
  paper: PaperMoney,
  sums: readonly number[],
): Promise<string[]> {
  const rows = await paperRows(pdf);
  const isAmount = (cell: string | undefined) => cell !== undefined && /\d[.,]\d\d(?:\D*)$/u.test(cell);
  const amounts = rows.flatMap((row) =>
    row.length >= 4 && isAmount(row.at(-1)) ? [hundredths(row.at(-1) ?? "")] : [],
  );
  const lines = paper.lines.map((line) => BigInt(line.shownMinor));
  const cells = rows.flatMap((row) =>
    row.length === 2 && isAmount(row[1]) ? [hundredths(row[1] ?? "")] : [],
  );
  return [
    ...(amounts.join() === lines.join()
      ? []
      : [`${name} prints the lines ${amounts.join()}, not ${lines.join()}.`]),
    ...sums.flatMap((sum) =>
      cells.includes(BigInt(sum)) ? [] : [`${name} does not print ${sum}: ${cells.join()}.`],
    ),
  ];
}

/** Whether a paper, as printed, carries each of these words. */
export async function readWords(pdf: Uint8Array, name: string, words: readonly string[]): Promise<string[]> {
  const rows = await paperRows(pdf);
  const text = rows.flat().join(" ").replace(/\s/gu, "");
  return words.flatMap((word) =>
    text.includes(word.replace(/\s/gu, "")) ? [] : [`${name} does not print “${word}”.`],
  );
}
