import { describe, expect, it } from "vitest";
import { daysCsvParts } from "@/lib/documents/daysCsv";
import { endOfDayPdf } from "@/lib/documents/endOfDay";
import { compared, expectedCash, splitCounted } from "@/lib/domain/endOfDay/drawer";
import type { PrintedDay, PrintedTaking } from "@/lib/domain/endOfDay/printed";
import { netOf, takingsOf } from "@/lib/domain/endOfDay/takings";
import { pdfText } from "../support/pdfText";
import { invoiceSample } from "./samples";

/** A day of an invented shop: sold, paid, returned; a drawer 1.00 short. */
function daySample(country: "AU" | "NO", payments = 4): PrintedDay {
  const { seller, currency, locale } = invoiceSample(country);
  const book = { currency, locale };
  const rows = Array.from({ length: payments }, (_, at) => ({
    kind: at % 4 === 3 ? ("refund" as const) : ("payment" as const),
    method: at % 2 === 0 ? "cash" : "card",
    amountMinor: 123_400 + at * 100,
    roundingMinor: at === 0 ? 2 : 0,
    overCounter: at % 4 !== 1,
  }));
  const takings = takingsOf(rows);
  const moves = [{ day: "2026-11-25", amountMinor: -320, reason: "Stamps", by: "Desk Person" }];
  const expectedMinor = expectedCash(10_000, netOf(takings, "cash"), moves);
  const countedMinor = expectedMinor - 100;
  return {
    day: "2026-11-25",
    fromDay: "2026-11-24",
    closedAt: "2026-11-25T07:05:00.000Z",
    zone: country === "AU" ? "Australia/Adelaide" : "Europe/Oslo",
    closedBy: "Desk Person",
    seller,
    country,
    locale,
    currency,
    takings,
    floatMinor: 10_000,
    moves,
    drawer: compared("drawer", { expectedMinor, countedMinor, reason: "Nobody knows" }, book),
    pieces: [{ valueMinor: 5000, pieces: 3 }],
    ...splitCounted(countedMinor, 10_000, book),
    terminal: compared("terminal", { expectedMinor: 5000, countedMinor: 5000, reason: "" }, book),
    payments: rows.map(
      ({ overCounter, amountMinor, ...row }, at): PrintedTaking => ({
        ...row,
        id: at + 1,
        at: "2026-11-25T01:30:00.000Z",
        paidOn: "2026-11-25",
        movedMinor: row.kind === "refund" ? 0 - amountMinor : amountMinor,
        document: overCounter ? { kind: "receipt", written: `R-${501 + at}` } : null,
        job: overCounter ? null : "1042",
      }),
    ),
  };
}

describe("the sheet of a day's end", () => {
  it("says in an independent reader's text what was taken, expected, counted and left", async () => {
    const text = await pdfText(await endOfDayPdf(daySample("AU")));
    // By hand: cash 1234.00 + 1236.00; card 1235.00 - 1237.00; 100.00 + 2470.00 - 3.20 = 2566.80, counted 2565.80.
    for (const said of [
      "Endofday24November2026to25November2026SaltpanCarburettorWorks",
      "CountedandclosedbyDeskPerson,25Nov2026,5:35",
      "ofwhichroundingtocoins0.02",
      "Takenout:Stamps,DeskPerson",
      "2,470.00",
      "Shouldbethere2,566.80",
      "Counted2,565.80",
      "Difference-1.00",
      "Why:Nobodyknows",
      "3×50.00150.00",
      "Staysinthedrawer100.00",
      "Tothebank2,465.80",
      "ReceiptR-501",
      "Job1042",
      "ABN51824753556",
      "page1of1",
    ])
      expect(text).toContain(said);
  });

  it("speaks Norwegian in Norway, with its marks", async () => {
    const text = await pdfText(await endOfDayPdf(daySample("NO")));
    for (const said of [
      "Dagsoppgjør",
      "24.november2026til25.november2026",
      "Skalværeder2566,80",
      "Differanse−1,00",
    ])
      expect(text).toContain(said);
    expect(text).not.toContain("Takings");
  });

  it("is the same file each time, and turns its pages where there is much", async () => {
    const doc = daySample("AU", 70);
    const [first, again] = [await endOfDayPdf(doc), await endOfDayPdf(doc)];
    expect(Buffer.from(first).equals(Buffer.from(again))).toBe(true);
    expect(await pdfText(first)).toContain("page3of3");
  });

  it("is a row of the days' file, its amounts as decimal numbers", async () => {
    const parts: string[] = [];
    const days = (async function* () {
      yield { doc: daySample("AU"), after: takingsOf([]) };
    })();
    for await (const part of daysCsvParts(days)) parts.push(part);
    const [, row] = parts.join("").trim().split("\r\n");
    expect(row?.split(",").slice(4, 17)).toEqual(
      "AUD,2470.00,-2.00,0.00,0.00,0.02,100.00,0.00,-3.20,2566.80,2565.80,-1.00,Nobody knows".split(","),
    );
  });
});
