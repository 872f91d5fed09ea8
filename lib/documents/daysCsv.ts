import type { PrintedDay } from "@/lib/domain/endOfDay/printed";
import { type MethodTakings, netOf } from "@/lib/domain/endOfDay/takings";
import { majorText } from "@/lib/domain/money/major";
import { csvRows, toCsv } from "./csv";

const FIELDS = [
  "day",
  "from day",
  "closed at",
  "closed by",
  "currency",
  "cash",
  "card",
  "bank transfer",
  "other",
  "rounding to coins",
  "float",
  "put in",
  "taken out",
  "expected in drawer",
  "counted",
  "difference",
  "why",
  "stays in drawer",
  "to the bank",
  "terminal",
  "terminal difference",
  "terminal why",
  "recorded after closing",
];

/** Closed days, a row for each, as it was counted; amounts are decimal numbers. */
export async function* daysCsvParts(
  days: AsyncIterable<{ readonly doc: PrintedDay; readonly after: readonly MethodTakings[] }>,
): AsyncGenerator<string, void, undefined> {
  yield toCsv(FIELDS, []);
  for await (const { doc, after } of days) yield csvRows([rowOf(doc, after)]);
}

const all = (takings: readonly MethodTakings[]) => takings.reduce((sum, one) => sum + one.netMinor, 0);

function rowOf(doc: PrintedDay, after: readonly MethodTakings[]): (string | null)[] {
  const money = (minor: number) => majorText(minor, doc.currency);
  const by = (method: string) => netOf(doc.takings, method);
  const moved = (way: 1 | -1) =>
    doc.moves.reduce((sum, { amountMinor }) => (amountMinor * way > 0 ? sum + amountMinor : sum), 0);
  const { drawer, terminal } = doc;
  return [
    doc.day,
    doc.fromDay,
    doc.closedAt,
    doc.closedBy,
    doc.currency,
    money(by("cash")),
    money(by("card")),
    money(by("transfer")),
    money(all(doc.takings) - by("cash") - by("card") - by("transfer")),
    money(doc.takings.reduce((sum, one) => sum + one.roundingMinor, 0)),
    money(doc.floatMinor),
    money(moved(1)),
    money(moved(-1)),
    money(drawer.expectedMinor),
    money(drawer.countedMinor),
    money(drawer.differenceMinor),
    drawer.reason,
    money(doc.leftMinor),
    money(doc.takenMinor),
    terminal && money(terminal.countedMinor),
    terminal && money(terminal.differenceMinor),
    terminal?.reason ?? null,
    money(all(after)),
  ];
}
