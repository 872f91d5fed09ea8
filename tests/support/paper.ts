import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

interface Placed {
  readonly text: string;
  readonly x: number;
  readonly right: number;
  readonly y: number;
}

/** Points between cells; a space in the largest type is less. */
const A_GAP = 8;
/** Points by which fonts of one row stand apart; rows are further. */
const SAME_ROW = 4;

/** A PDF's words as rows of cells, read by pdf.js by where they stand: the same height is one row, a gap begins a new cell. */
export async function paperRows(pdf: Uint8Array): Promise<string[][]> {
  const document = await getDocument({ data: pdf.slice(), verbosity: 0 }).promise;
  const rows: string[][] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const { items } = await (await document.getPage(n)).getTextContent();
    const placed = items.flatMap((item): Placed[] => {
      if (!("str" in item) || item.str === "") return [];
      const [x, y] = [Number(item.transform[4]), Number(item.transform[5])];
      return [{ text: item.str, x, right: x + item.width, y }];
    });
    let row: Placed[] = [];
    for (const item of placed.sort((a, b) => b.y - a.y)) {
      if (row[0] && row[0].y - item.y > SAME_ROW) {
        rows.push(cellsOf(row));
        row = [];
      }
      row.push(item);
    }
    rows.push(cellsOf(row));
  }
  return rows;
}

function cellsOf(row: readonly Placed[]): string[] {
  const cells: string[] = [];
  let right = Number.NEGATIVE_INFINITY;
  for (const item of [...row].sort((a, b) => a.x - b.x)) {
    if (item.text.trim() !== "" && item.x - right > A_GAP) cells.push(item.text);
    else if (cells.length > 0) cells.push(`${cells.pop()}${item.text}`);
    if (item.text.trim() !== "") right = item.right;
  }
  return cells.map((cell) => cell.replace(/[\s\u00a0\u202f]+/gu, " ").trim());
}

/** A printed amount of two decimals in whole hundredths, whatever the locale's marks: "-$1,234.50", "−1 234,50 kr". */
export function hundredths(printed: string): bigint {
  const digits = printed.replace(/[^\d]/gu, "");
  if (!/[.,]\d\d(?:\D|$)/u.test(printed)) throw new Error(`"${printed}" is no amount of two decimals.`);
  return /[-\u2212]/u.test(printed) ? -BigInt(digits) : BigInt(digits);
}
