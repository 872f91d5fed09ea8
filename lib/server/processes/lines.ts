import type { Readable } from "node:stream";

/** A line longer than this is passed on in pieces. */
const LONGEST = 1024 * 1024;

/** Passes on what a process says, a whole line at a time; at its end also what it began to say. */
export function wholeLines(said: Readable, pass: (line: string) => void): void {
  let begun = "";
  said.setEncoding("utf8");
  said.on("data", (part: string) => {
    const lines = (begun + part).split("\n");
    begun = lines.pop() ?? "";
    for (const line of lines) pass(line);
    if (begun.length > LONGEST) {
      pass(begun);
      begun = "";
    }
  });
  said.on("end", () => {
    if (begun) pass(begun);
    begun = "";
  });
}
