import { Refusal } from "../refusal";

export const MOST_BYTES = 5 * 1024 * 1024;
export const MOST_ROWS = 20_000;

export interface Decoded {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16" | "Windows-1252";
}

/**
 * The text of a file: UTF-8, or UTF-16 by its byte order mark; bytes that are neither are read as Windows-1252, which
 * the answer says so that odd letters can be looked for. Throws Refusal for a file too large, empty, or no text at all.
 * Source: the WHATWG Encoding Standard.
 */
export function decodeFile(bytes: Uint8Array): Decoded {
  if (bytes.length === 0) throw new Refusal("The file is empty.", "Choose the file that holds the rows.");
  if (bytes.length > MOST_BYTES)
    throw new Refusal(
      `The file is ${(bytes.length / 1024 / 1024).toFixed(1)} MB; at most 5 MB can be read at once.`,
      "Split it into several files with the same heading.",
    );
  const mark = `${bytes[0]} ${bytes[1]}`;
  if (mark === "255 254" || mark === "254 255")
    return {
      text: textOf(new TextDecoder(mark === "255 254" ? "utf-16le" : "utf-16be").decode(bytes)),
      encoding: "UTF-16",
    };
  if (bytes.includes(0))
    throw new Refusal("This is no text file.", "Save the sheet as CSV (UTF-8), then choose that file.");
  try {
    return { text: textOf(new TextDecoder("utf-8", { fatal: true }).decode(bytes)), encoding: "UTF-8" };
  } catch (cause) {
    if (!(cause instanceof TypeError)) throw cause;
    return { text: textOf(new TextDecoder("windows-1252").decode(bytes)), encoding: "Windows-1252" };
  }
}

function textOf(text: string): string {
  if (text.trim() === "") throw new Refusal("The file is empty.", "Choose the file that holds the rows.");
  return text;
}
