import type { Compared } from "@/lib/domain/endOfDay/drawer";
import type { PrintedDay } from "@/lib/domain/endOfDay/printed";
import { type MethodTakings, netOf, partsOf } from "@/lib/domain/endOfDay/takings";
import { type DayWords, dayWords } from "@/lib/words/dayPaper";
import { paperWords } from "@/lib/words/papers";
import { amountText, dayText, instantText } from "./format";
import { letterfoot, letterhead } from "./letterhead";
import { figure, label, ledger, say, section, sumRows } from "./look";
import { type Content, toPdf } from "./pdf";

/** The sheet of a day's end as a PDF. Everything printed is in the value. */
export async function endOfDayPdf(doc: PrintedDay): Promise<Uint8Array> {
  const words = dayWords(doc.locale);
  const paper = paperWords(doc.locale);
  const day = dayText(doc.day, doc.locale);
  const name = `${words.endOfDay} ${day}`;
  return toPdf({
    title: name,
    author: doc.seller.name,
    locale: doc.locale,
    country: doc.country,
    date: doc.day,
    footer: letterfoot(name, doc.seller, paper),
    content: [
      letterhead(
        {
          title: words.endOfDay,
          line: doc.fromDay === doc.day ? day : words.covers(dayText(doc.fromDay, doc.locale), day),
        },
        doc.seller,
        paper,
      ),
      say(words.closed(doc.closedBy, instantText(doc.closedAt, doc.zone, doc.locale))),
      section(`${words.takings}, ${doc.currency}`),
      takingsLedger(doc, words),
      {
        columns: [
          {
            stack: [
              section(`${words.drawer}, ${doc.currency}`),
              drawerSums(doc, words),
              ...why(doc.drawer, words),
            ],
          },
          { stack: [...piecesPart(doc, words), ...terminalPart(doc, words)] },
        ],
        columnGap: 30,
        unbreakable: true,
      } as Content,
      section(`${words.payments}, ${doc.currency}`),
      paymentsLedger(doc, words),
    ],
  });
}

const moneyOn =
  ({ currency, locale }: PrintedDay) =>
  (minor: number) =>
    amountText(minor, currency, locale);

const PART_NAMES = {
  soldMinor: "sold",
  paidMinor: "paid",
  returnedMinor: "returned",
  givenBackMinor: "givenBack",
  bouncedMinor: "bounced",
} as const;

function takingsLedger(doc: PrintedDay, words: DayWords): Content {
  const money = moneyOn(doc);
  const parts = partsOf(doc.takings);
  const row = (one: MethodTakings): Content[] => [
    {
      stack: [
        say(words.methods[one.method] ?? one.method),
        ...(one.roundingMinor === 0 ? [] : [label(words.rounding(money(one.roundingMinor)))]),
      ],
    },
    ...parts.map(({ part, out }) => figure(one[part] === 0 ? "" : money(out ? 0 - one[part] : one[part]))),
    figure(money(one.netMinor), { bold: true }),
  ];
  const inAll = doc.takings.reduce((sum, one) => sum + one.netMinor, 0);
  return ledger(
    [
      { head: words.how, width: "*" },
      ...parts.map(({ part }) => ({ head: words[PART_NAMES[part]], width: "auto", end: true })),
      { head: words.together, width: "auto", end: true },
    ],
    [
      ...doc.takings.map(row),
      [
        say(words.inAll, { bold: true }),
        ...parts.map(() => figure("")),
        figure(money(inAll), { bold: true }),
      ],
    ],
  );
}

function drawerSums(doc: PrintedDay, words: DayWords): Content {
  const money = moneyOn(doc);
  const { drawer } = doc;
  return sumRows([
    { name: words.float, value: money(doc.floatMinor) },
    { name: words.cash, value: money(netOf(doc.takings, "cash")) },
    ...doc.moves.map(({ amountMinor, reason, by }) => ({
      name: (amountMinor > 0 ? words.putIn : words.takenOut)(`${reason}, ${by}`),
      value: money(amountMinor),
    })),
    { name: words.expected, value: money(drawer.expectedMinor), strong: true },
    { name: words.counted, value: money(drawer.countedMinor) },
    { name: words.difference, value: money(drawer.differenceMinor), strong: true },
    { name: words.left, value: money(doc.leftMinor) },
    { name: words.taken, value: money(doc.takenMinor) },
  ]);
}

const why = ({ reason }: Compared, words: DayWords): Content[] =>
  reason ? [say(`${words.why}: ${reason}`, { margin: [0, 6, 0, 0] })] : [];

function piecesPart(doc: PrintedDay, words: DayWords): Content[] {
  if (doc.pieces.length === 0) return [];
  const money = moneyOn(doc);
  const rows = doc.pieces.map(({ valueMinor, pieces }) => ({
    name: `${pieces} × ${money(valueMinor)}`,
    value: money(valueMinor * pieces),
  }));
  return [section(words.pieces), sumRows(rows)];
}

function terminalPart(doc: PrintedDay, words: DayWords): Content[] {
  if (!doc.terminal) return [];
  const money = moneyOn(doc);
  const { expectedMinor, countedMinor, differenceMinor } = doc.terminal;
  return [
    section(words.terminal),
    sumRows([
      { name: words.onRecord, value: money(expectedMinor) },
      { name: words.read, value: money(countedMinor) },
      { name: words.difference, value: money(differenceMinor), strong: true },
    ]),
    ...why(doc.terminal, words),
  ];
}

function paymentsLedger(doc: PrintedDay, words: DayWords): Content {
  if (doc.payments.length === 0) return say(words.none);
  const money = moneyOn(doc);
  return ledger(
    [
      { head: words.recorded, width: "auto" },
      { head: words.of, width: "*" },
      { head: words.what, width: "auto" },
      { head: words.how, width: "auto" },
      { head: words.amount, width: "auto", end: true },
    ],
    doc.payments.map(({ at, document, job, kind, method, movedMinor }) => [
      label(instantText(at, doc.zone, doc.locale)),
      say(
        document ? `${words.documents[document.kind]} ${document.written}` : job ? `${words.job} ${job}` : "",
      ),
      label(words.kinds[kind] ?? kind),
      label(words.methods[method] ?? method),
      figure(money(movedMinor)),
    ]),
  );
}
