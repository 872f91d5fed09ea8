import type { PrintedInvoice } from "./printed";

/** What a document's lines are counted as: the kinds of its lines, or all of it as a sale over the counter. */
export const SHARES = ["labour", "part", "fixed", "sundries", "outside", "discount", "counter"] as const;
export type ShareKind = (typeof SHARES)[number];

/** So much of a document is of one kind and one job. */
export interface DocumentShare {
  readonly issuedOn: string;
  /** Number of the job; empty for a sale over the counter. */
  readonly job: string;
  readonly kind: ShareKind;
  readonly netMinor: number;
  /** Of labour that is charged by the hour: minutes, below zero on a credit note. */
  readonly minutes: number;
}

/**
 * A document's net by job and kind of line, in minor units: the shares add up to the document's net. Minutes are the hours that labour
 * lines print, rounded half away from zero line by line.
 */
export function sharesOf(doc: PrintedInvoice): DocumentShare[] {
  const lines = doc.lines.map((line): DocumentShare => {
    const hours = line.kind === "labour" && line.unit === "h";
    return {
      issuedOn: doc.issuedOn,
      job: line.job ?? doc.jobs[0]?.number ?? "",
      kind: doc.basis === "counter" ? "counter" : line.kind,
      netMinor: line.netMinor,
      minutes: hours
        ? Math.sign(line.quantityMilli) * Math.round((Math.abs(line.quantityMilli) * 60) / 1000)
        : 0,
    };
  });
  const groups = Map.groupBy(lines, ({ job, kind }) => `${job} ${kind}`);
  return [...groups.values()].flatMap((own) => {
    const [first] = own;
    const sum = (of: "netMinor" | "minutes") => own.reduce((total, line) => total + line[of], 0);
    return first ? [{ ...first, netMinor: sum("netMinor"), minutes: sum("minutes") }] : [];
  });
}
