import { create } from "xmlbuilder2";

/** An element's content: text, children in their order, the same child several times, or nothing. */
export type UblNode = string | undefined | UblChildren | readonly UblNode[];
export interface UblChildren {
  readonly [name: string]: UblNode;
}

const COMMON = "urn:oasis:names:specification:ubl:schema:xsd:Common";

/**
 * A UBL 2.1 document as text: the same values give the same bytes. What is empty is left out (an empty element says nothing:
 * ibr-079); characters that XML 1.0 has no place for are dropped.
 */
export function ublText(name: "Invoice" | "CreditNote", children: UblChildren): string {
  const root = {
    [name]: {
      "@xmlns": `urn:oasis:names:specification:ubl:schema:xsd:${name}-2`,
      "@xmlns:cac": `${COMMON}AggregateComponents-2`,
      "@xmlns:cbc": `${COMMON}BasicComponents-2`,
      ...(filled(children) as UblChildren | undefined),
    },
  };
  return `${create({ version: "1.0", encoding: "UTF-8", invalidCharReplacement: "" }, root).end({ prettyPrint: true })}\n`;
}

/** Without what is empty; undefined where nothing is left. Attributes alone are nothing. */
function filled(node: UblNode): UblNode {
  if (node === undefined) return undefined;
  if (typeof node === "string") return sayable(node);
  if (isList(node)) {
    const rows = node.map(filled).filter((row) => row !== undefined);
    return rows.length > 0 ? rows : undefined;
  }
  const kept = Object.entries(node).flatMap(([key, value]): [string, UblNode][] => {
    const content = filled(value);
    return content === undefined ? [] : [[key, content]];
  });
  return kept.some(([key]) => !key.startsWith("@")) ? Object.fromEntries(kept) : undefined;
}

const isList = (node: UblNode): node is readonly UblNode[] => Array.isArray(node);

/** Source: XML 1.0 (fifth edition), production 2, Char; with `u` a lone surrogate is one that does not match. */
const UNSAYABLE = /[^\t\n\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

function sayable(text: string): string | undefined {
  // The library takes what looks like an entity for one, once as it reads and once as it writes: each ampersand is escaped for both.
  const said = text.replace(/\r\n?/gu, "\n").replace(UNSAYABLE, "").trim().replaceAll("&", "&amp;amp;");
  return said === "" ? undefined : said;
}
