import { Refusal } from "@/lib/domain/refusal";

/** Longer than any row of ours: a document with all it printed. */
const LONGEST = 64 * 1024 * 1024;
const NEWLINE = 10;

/** The lines of a file that comes in pieces, without their ends. */
export async function* linesOf(pieces: AsyncIterable<Buffer>): AsyncGenerator<string, void, undefined> {
  let begun: Buffer[] = [];
  let held = 0;
  for await (const piece of pieces) {
    let from = 0;
    for (let at = piece.indexOf(NEWLINE); at !== -1; at = piece.indexOf(NEWLINE, from)) {
      yield Buffer.concat([...begun, piece.subarray(from, at)]).toString("utf8");
      from = at + 1;
      begun = [];
      held = 0;
    }
    const rest = piece.subarray(from);
    held += rest.length;
    if (held > LONGEST) throw new Refusal("One of its lines is longer than any row.", "Nothing was opened.");
    if (rest.length) begun.push(rest);
  }
  if (begun.length) yield Buffer.concat(begun).toString("utf8");
}
