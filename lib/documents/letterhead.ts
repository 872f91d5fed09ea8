import type { PaperWords } from "@/lib/words/papers";
import { foot, INK, label, say } from "./look";
import type { Content } from "./pdf";
import { type NumberedSeller, sellerNumber } from "./sellerNumber";

/** Who a paper is from. */
export interface Sender extends NumberedSeller {
  readonly name: string;
  readonly legalName?: string;
  readonly address: string;
  readonly phone: string;
  readonly email: string;
}

/** The same with what decides its language, its paper and the unit of its odometers. */
export interface PlacedSender extends Sender {
  readonly locale: string;
  readonly country: string;
  readonly units: string;
}

/** What a paper is: its title, its number, and its day or another line about it in words. */
export interface Named {
  readonly title: string;
  readonly number?: string;
  readonly line?: string;
}

/** The head of every paper: what it is at the left, whose it is at the right, over an ink line. */
export function letterhead(of: Named, sender: Sender, words: PaperWords): Content {
  const { name, legalName } = sender;
  const reached = [sender.phone, sender.email].filter(Boolean);
  const right = [
    ...(legalName && legalName !== name ? [legalName] : []),
    sender.address.trim().replace(/\s*\n\s*/gu, ", "),
    ...reached,
    sellerNumber(sender, words),
  ].filter(Boolean);
  return {
    table: {
      widths: ["*", 230],
      body: [
        [
          {
            stack: [
              say(of.title, { size: 21, bold: true }),
              ...(of.number ? [say(of.number, { face: "Figure", size: 13 })] : []),
              ...(of.line ? [label(of.line, { size: 9 })] : []),
            ],
          },
          {
            stack: [
              say(name, { bold: true, size: 12, align: "right" }),
              ...right.map((row) => label(row, { align: "right" })),
            ],
          },
        ],
      ],
    },
    layout: {
      hLineWidth: (at: number) => (at === 1 ? 1.6 : 0),
      vLineWidth: () => 0,
      hLineColor: () => INK,
      paddingLeft: () => 0,
      paddingRight: () => 0,
      paddingBottom: () => 5,
    },
    margin: [0, 0, 0, 12],
  } as Content;
}

/** Who a paper is to; nothing for somebody who walked in. */
export function addressee(
  buyer: { readonly name: string; readonly address: string; readonly taxNumber: string },
  words: PaperWords,
): Content {
  const rows = [
    buyer.name,
    buyer.address,
    buyer.taxNumber ? `${words.taxNumber} ${buyer.taxNumber}` : "",
  ].filter((row) => row.trim() !== "");
  if (rows.length === 0) return say("");
  return {
    stack: [label(words.to), ...rows.map((row, at) => say(row, { bold: at === 0 }))],
    margin: [0, 0, 0, 10],
  };
}

/** The foot of every paper: whose it is, what it is called, which page of how many. */
export const letterfoot = (name: string, sender: Sender, words: PaperWords) =>
  foot(
    [sender.legalName || sender.name, sellerNumber(sender, words), name].filter(Boolean).join("   "),
    words.page,
  );
