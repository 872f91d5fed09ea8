import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** The text of a PDF as an independent reader finds it (pdf.js), without spaces. */
export async function pdfText(pdf: Uint8Array): Promise<string> {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const found: string[] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const { items } = await (await document.getPage(n)).getTextContent();
    found.push(...items.map((item) => ("str" in item ? item.str : "")));
  }
  return found.join("").replace(/[\s\u00a0]+/gu, "");
}
