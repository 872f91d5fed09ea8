import { describe, expect, it } from "vitest";
import { jobCardPdf } from "@/lib/documents/jobCard";
import { spokenAs } from "@/lib/documents/measuring";
import { PROCEDURES } from "@/lib/domain/procedures/procedures";
import { MEASURING_NB } from "@/lib/words/measuring/measuring";
import { pdfText } from "../support/pdfText";
import { senderSample } from "./samples";

const textsOf = (one: (typeof PROCEDURES)[number]) => [
  one.name,
  one.instrument,
  one.readings,
  ...(one.before ?? []),
  ...one.steps,
  ...one.cautions,
];

describe("measuring procedures in Bokmål", () => {
  it("are all there, each with as many steps, cautions and labels as in English, and none besides", () => {
    expect(Object.keys(MEASURING_NB).sort()).toEqual(PROCEDURES.map(({ id }) => id).sort());
    for (const one of PROCEDURES) {
      const nb = MEASURING_NB[one.id];
      const counts = [
        one.before?.length ?? 0,
        one.steps.length,
        one.cautions.length,
        one.drawing.labels.length,
      ];
      expect(
        [nb?.before?.length ?? 0, nb?.steps.length, nb?.cautions.length, nb?.labels.length],
        one.id,
      ).toEqual(counts);
    }
  });

  it("repeat no English text, and keep every figure of it", () => {
    const figures = (text: string) => (text.replaceAll(",", ".").match(/\d+(?:\.\d+)?/g) ?? []).sort();
    for (const one of PROCEDURES) {
      const spoken = spokenAs(one, "nb-NO");
      const [english, norwegian] = [textsOf(one), textsOf(spoken)];
      expect(
        norwegian.filter((text, at) => text === english[at]),
        one.id,
      ).toEqual([]);
      for (const [at, text] of [...english, one.resolution].entries())
        expect(figures([...norwegian, spoken.resolution][at] ?? ""), `${one.id}: ${text}`).toEqual(
          figures(text),
        );
    }
  });

  it("have labels that stay on the drawing's sheet as the English ones do, and leave English papers alone", () => {
    for (const one of PROCEDURES) {
      expect(spokenAs(one, "en-AU")).toBe(one);
      for (const { x, text, anchor } of spokenAs(one, "nb-NO").drawing.labels) {
        // A letter is about half as wide as it is high, 13 units.
        const wide = text.length * 6.6;
        const left = anchor === "start" ? x : anchor === "end" ? x - wide : x - wide / 2;
        expect(left, `${one.id}: ${text}`).toBeGreaterThanOrEqual(-4);
        expect(left + wide, `${one.id}: ${text}`).toBeLessThanOrEqual(324);
      }
    }
  });

  it("stand on the card of a Norwegian shop", async () => {
    const step = {
      position: 1,
      kind: "operation" as const,
      name: "Flottør",
      instruction: "",
      minutes: 20,
      tools: [],
      cautions: [],
      makes: ["floatHeightMm"],
      state: "todo" as const,
      doneByName: "",
      reason: "",
      holdPoints: [],
      settings: [],
      parts: [],
    };
    const card = (locale: string) => ({
      number: "J-1",
      title: "Flottør",
      customer: { name: "Oda Fenn" },
      bike: { name: "Tarrant Drover 580", plate: "" },
      complaint: "",
      minutes: 20,
      steps: [step],
      shop: { ...senderSample("NO"), locale },
      day: "2026-11-25",
    });
    const norwegian = await pdfText(await jobCardPdf(card("nb-NO")));
    expect(norwegian).toContain("Flottørhøydemedlære");
    expect(norwegian).toContain("barpakningsflate");
    expect(norwegian).not.toMatch(/gasket|floatheight/i);
    expect(await pdfText(await jobCardPdf(card("en-AU")))).toContain("Floatheightbygauge");
  });
});
