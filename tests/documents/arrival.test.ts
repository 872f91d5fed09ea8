import { describe, expect, it } from "vitest";
import { type ArrivalPaper, arrivalPdf } from "@/lib/documents/arrival";
import { handoverPdf } from "@/lib/documents/handover";
import { pdfText } from "../support/pdfText";
import { handoverSample, senderSample } from "./samples";

const paper: ArrivalPaper = {
  id: 7,
  job: "612",
  customer: "Oda Fenn",
  bike: "Tarrant Drover 580, 1998",
  plate: "SP 12",
  day: "2026-11-25",
  cameText: "25 Nov 2026, 08:10",
  takenBy: "Mara Lind",
  odometerKm: 24180,
  fuelEighths: 3,
  keys: 2,
  accessories: "Tank bag",
  words: "Coughs when it is opened gently",
  damages: [
    { number: 1, side: "left", part: "tank", what: "dent", note: "thumb size", photos: 2 },
    { number: 2, side: "right", part: "exhaust", what: "scratch", note: "", photos: 0 },
  ],
  marks: { left: [{ number: 1, x: 150, y: 60 }], right: [{ number: 2, x: 98, y: 160 }] },
  signed: {
    signedBy: "Oda Fenn",
    signedText: "25 Nov 2026, 08:15",
    signature: "10,100 120,60 260,140 400,80",
  },
  replaced: false,
  shop: senderSample("AU"),
};
const has = (text: string, ...said: readonly string[]) => {
  for (const one of said) expect(text).toContain(one.replace(/[\s\u00a0]+/gu, ""));
};

describe("The paper of a bike's arrival", () => {
  it("tells how it stood, its marks by number and word, and who signed when; the same file each time", async () => {
    const pdf = await arrivalPdf(paper);
    const text = await pdfText(pdf);
    has(text, "24,180 km", "3/8", "Tank bag", "Coughs when it is opened gently");
    has(text, "fuel tank, left: dented. thumb size", "2 photos", "exhaust, right: scratched");
    has(text, "Oda Fenn, 25 Nov 2026, 08:15", "Job612");
    expect(text).not.toContain("nametyped");
    expect(Buffer.from(await arrivalPdf(paper)).equals(Buffer.from(pdf))).toBe(true);
  });

  it("reads the odometer in miles where the shop does, at home with the bike as well", async () => {
    const shop = { ...paper.shop, units: "uk", locale: "en-GB" };
    has(await pdfText(await arrivalPdf({ ...paper, shop })), "15,025 mi");
    has(
      await pdfText(await handoverPdf({ ...handoverSample, arrival: paper, shop })),
      "25,600 mi",
      "15,025 mi",
    );
  });

  it("is in the customer's language, says a typed name for what it is, and leaves a line where nobody signed", async () => {
    const shop = { ...paper.shop, locale: "nb-NO", country: "NO" };
    const signed = paper.signed && { ...paper.signed, signature: "" };
    has(
      await pdfText(await arrivalPdf({ ...paper, shop, signed })),
      "bensintank, venstre: bulk",
      "(navn skrevet)",
    );
    const open = await pdfText(
      await arrivalPdf({ ...paper, shop, signed: null, damages: [], replaced: true }),
    );
    has(open, "Ingenting ble merket.", "Dato og underskrift", "En senere registrering erstatter denne.");
  });

  it("is told again on the handover sheet", async () => {
    const again = await pdfText(await handoverPdf({ ...handoverSample, arrival: paper }));
    has(again, "fuel tank, left: dented", "Tank bag", "Oda Fenn, 25 Nov 2026, 08:15");
    expect(await pdfText(await handoverPdf(handoverSample))).not.toContain("Tankbag");
  });
});
