import * as loaded from "pdfmake";
import type { Content, TDocumentDefinitions } from "pdfmake/interfaces";
import { loadFonts } from "./fonts";

export type { Content, TableCell } from "pdfmake/interfaces";

interface Printer {
  readonly virtualfs: { writeFileSync(name: string, content: Uint8Array): void };
  setUrlAccessPolicy(allow: (url: string) => boolean): void;
  setLocalAccessPolicy(allow: (path: string) => boolean): void;
  setFonts(fonts: Record<string, { normal: string; bold: string }>): void;
  createPdf(definition: TDocumentDefinitions): { getBuffer(): Promise<Uint8Array> };
}

let ready: Printer | undefined;

/** The printer with its faces; it may open no address and no file, whatever a document says. */
function printer(): Printer {
  if (ready) return ready;
  const found = ((loaded as { default?: unknown }).default ?? loaded) as Printer;
  found.setUrlAccessPolicy(() => false);
  found.setLocalAccessPolicy(() => false);
  found.setFonts(loadFonts(found.virtualfs));
  ready = found;
  return found;
}

export interface PaperInput {
  readonly title: string;
  readonly author: string;
  readonly locale: string;
  /** ISO 3166-1 alpha-2; decides between A4 and Letter. */
  readonly country: string;
  /** The document's own day or instant: the same document printed again is the same file, byte for byte. */
  readonly date: string;
  readonly footer: (page: number, pages: number) => Content;
  readonly content: readonly Content[];
  /** In points, for what is not an office sheet: a label. */
  readonly page?: {
    readonly width: number;
    /** "auto": one page as long as what stands on it. */
    readonly height: number | "auto";
    readonly margins: [number, number, number, number];
  };
}

/** Countries whose offices print on Letter; common practice (CLDR's paper sizes), from memory. */
const LETTER = new Set(["US", "CA", "MX", "CL", "CO", "CR", "GT", "NI", "PA", "PH", "PR", "SV", "VE"]);

export function paperSize(country: string): "A4" | "LETTER" {
  return LETTER.has(country) ? "LETTER" : "A4";
}

/** A document as a PDF. Tables repeat their heading on each page; the footer knows how many pages there are. */
export async function toPdf(input: PaperInput): Promise<Uint8Array> {
  const date = new Date(input.date.length === 10 ? `${input.date}T00:00:00Z` : input.date);
  const definition: TDocumentDefinitions = {
    pageSize: input.page ? { width: input.page.width, height: input.page.height } : paperSize(input.country),
    pageMargins: input.page?.margins ?? [45, 42, 45, 60],
    info: {
      title: input.title,
      author: input.author,
      creator: "Throttlewright",
      producer: "Throttlewright",
      creationDate: date,
      modDate: date,
    },
    language: input.locale,
    defaultStyle: { font: "Text", fontSize: 9.5, lineHeight: 1.2, color: "#1c2022" },
    footer: input.footer,
    content: [...input.content],
  };
  return new Uint8Array(await printer().createPdf(definition).getBuffer());
}
