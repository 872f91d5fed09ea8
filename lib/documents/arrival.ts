import type { BikePart, Damage, Side } from "../domain/arrival/damage";
import { type Mark, motorcycle } from "../domain/arrival/motorcycle";
import { type ArrivalWords, arrivalWords } from "../words/arrival";
import { paperWords } from "../words/papers";
import { distanceText, numberText } from "./format";
import { letterfoot, letterhead, type PlacedSender } from "./letterhead";
import { facts, figure, label, ledger, say, section } from "./look";
import { drawingOnPaper } from "./measuring";
import { type Content, toPdf } from "./pdf";
import { type SignatureOnPaper, signatureOnPaper } from "./signature";

/** How a bike came, as papers tell it. */
export interface ArrivalOnPaper {
  /** The moment on the shop's clock. */
  readonly cameText: string;
  readonly odometerKm: number | null;
  readonly fuelEighths: number | null;
  readonly keys: number | null;
  readonly accessories: string;
  readonly words: string;
  readonly damages: readonly {
    readonly number: number;
    readonly side: Side;
    readonly part: BikePart;
    readonly what: Damage;
    readonly note: string;
    readonly photos: number;
  }[];
  readonly marks: Readonly<Record<Side, readonly Mark[]>>;
  readonly signed: SignatureOnPaper | null;
}

export interface ArrivalPaper extends ArrivalOnPaper {
  readonly id: number;
  /** The job's number; empty where there is none. */
  readonly job: string;
  readonly customer: string;
  readonly bike: string;
  readonly plate: string;
  /** The day it came, for the file. */
  readonly day: string;
  readonly takenBy: string;
  /** A later record stands in its place. */
  readonly replaced: boolean;
  readonly shop: PlacedSender;
}

const factsOf = (came: ArrivalOnPaper, words: ArrivalWords, { locale, units }: PlacedSender) =>
  facts([
    [words.came, came.cameText],
    [words.odometer, came.odometerKm === null ? "" : distanceText(came.odometerKm, units, locale)],
    [words.fuel, came.fuelEighths === null ? "" : (words.fuels[came.fuelEighths] ?? "")],
    [words.keys, came.keys === null ? "" : numberText(came.keys, locale)],
    [words.accessories, came.accessories],
    [words.words, came.words],
  ]);

const damagesOf = ({ damages }: ArrivalOnPaper, words: ArrivalWords): Content =>
  damages.length === 0
    ? say(words.whole)
    : ledger(
        [
          { head: "", width: 18, end: true },
          { head: words.damage, width: "*" },
          { head: "", width: "auto" },
        ],
        damages.map((one) => [
          figure(String(one.number)),
          say(
            `${words.part[one.part]}, ${words.side[one.side]}: ${words.what[one.what]}${one.note ? `. ${one.note}` : ""}`,
          ),
          label(one.photos > 0 ? words.photos(one.photos) : ""),
        ]),
      );

const drawingsOf = ({ marks }: ArrivalOnPaper): Content => ({
  columns: (["left", "right"] as const).map((side) => ({
    width: 240,
    stack: drawingOnPaper(motorcycle(side, marks[side])),
  })),
  columnGap: 14,
  unbreakable: true,
  margin: [0, 8, 0, 8],
});

/** How a bike came, as a PDF: both sides with their marks, and the line for the signature. */
export async function arrivalPdf(paper: ArrivalPaper): Promise<Uint8Array> {
  const { locale, country } = paper.shop;
  const words = arrivalWords(locale);
  const name = [words.title, paper.bike, paper.plate].filter(Boolean).join(", ");
  return toPdf({
    title: name,
    author: paper.shop.name,
    locale,
    country,
    date: paper.day,
    footer: letterfoot(`${words.title} ${paper.id}`, paper.shop, paperWords(locale)),
    content: [
      letterhead({ title: words.title, number: String(paper.id) }, paper.shop, paperWords(locale)),
      ...(paper.replaced ? [say(words.replaced, { bold: true })] : []),
      facts([
        [paperWords(locale).bike, [paper.bike, paper.plate].filter(Boolean).join(", ")],
        [words.customer, paper.customer],
        [words.job, paper.job],
      ]),
      factsOf(paper, words, paper.shop),
      section(words.damage),
      drawingsOf(paper),
      damagesOf(paper, words),
      say(words.sign, { margin: [0, 16, 0, 0] }),
      signatureOnPaper(paper.signed, words),
    ],
  });
}

/** How the bike came, on the paper that goes home with it; nothing where nobody took it down. */
export function arrivalPart(came: ArrivalOnPaper | null, shop: PlacedSender): Content[] {
  if (!came) return [];
  const words = arrivalWords(shop.locale);
  const signed = came.signed && `${words.signature}: ${came.signed.signedBy}, ${came.signed.signedText}`;
  return [
    section(words.of(came.cameText)),
    factsOf({ ...came, cameText: "", words: "" }, words, shop),
    damagesOf(came, words),
    ...(signed ? [label(signed, { margin: [0, 3, 0, 0] })] : []),
  ];
}
