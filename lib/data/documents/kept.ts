import { z } from "zod";
import type { PrintedLine } from "@/lib/domain/invoices/printed";
import { line, text } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** What stayed of an invoice that was credited to be corrected: the lines that the new draft begins with. */
export interface KeptLines {
  readonly format: "throttlewright-kept-lines";
  readonly version: 1;
  /** The number of the invoice that it corrects, as it is written. */
  readonly corrects: string;
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly quotes: readonly string[];
  /** The jobs that still have these lines, each under the keys that its lines have by themselves. */
  readonly jobs: readonly { readonly number: string; readonly lines: readonly PrintedLine[] }[];
}

const KEPT: Versions<KeptLines> = {
  format: "throttlewright-kept-lines",
  what: "the lines of a corrected invoice",
  readers: {
    1: z.looseObject({
      format: z.literal("throttlewright-kept-lines"),
      version: z.literal(1),
      corrects: text,
      currency: text,
      pricesIncludeTax: z.boolean(),
      taxRegime: text,
      quotes: z.array(text),
      jobs: z.array(
        z.looseObject({ number: text, lines: z.array(line.extend({ job: text.exactOptional() })) }),
      ),
    }),
  },
};

/** The kept lines of a draft; null where it corrects no invoice. */
export function storedKept(json: unknown): KeptLines | null {
  return json === null || json === undefined ? null : readVersion(KEPT, json);
}
