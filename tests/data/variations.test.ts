import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { storedQuote } from "@/lib/data/documents/quote";
import { addFinding } from "@/lib/data/jobs/findings";
import { foundByLink } from "@/lib/data/photos/ofQuote";
import { declineQuote } from "@/lib/data/quotes/answer";
import { getQuote } from "@/lib/data/quotes/get";
import { previewQuote } from "@/lib/data/quotes/preview";
import { sendQuote } from "@/lib/data/quotes/send";
import { writeWork } from "@/lib/data/quotes/works";
import { createQuote } from "@/lib/data/quotes/write";
import { getToday } from "@/lib/data/today/today";
import { quotePdf } from "@/lib/documents/quote";
import { sentChain, stockChain, workForm } from "../support/chain";
import { pdfText } from "../support/pdfText";
import { makeBike, ORIGIN, yes } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const SEES = { quotes: true, invoices: true, stock: true };

describe("extra work for what was found", () => {
  it("holds what the finding needs and nothing more, shows its words, and comes up on Today until it is answered", async () => {
    const { a, b } = await twoShops();
    await stockChain(a);
    const { bikeId } = await makeBike(a, "Ines Valdborg");
    const { jobId } = await acceptQuote(a, { ...yes(await sentChain(a, bikeId)), acknowledgements: [] });
    const { findingId } = await addFinding(a, { jobId, text: "Rear hub bearing is rough." });
    const id = await createQuote(a, { bikeId, variationOfId: jobId, findingId, title: "Rear hub bearing" });
    await writeWork(
      a,
      workForm({
        id: String(id),
        version: "1",
        name: "Bearing renewed",
        steps: { 0: { minutes: "30", grade: "workshop" } },
      }),
    );
    const draft = await previewQuote(a, id);
    expect(draft?.text.printed).toMatchObject({
      title: "Rear hub bearing",
      acknowledgements: [],
      cautions: [],
      settings: [],
    });
    expect(draft?.text.lines.map((line) => line.name)).toEqual(["Work, workshop"]);

    const { revisionId } = await sendQuote(a, { id, version: 2, origin: ORIGIN });
    const { frozen } = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
    const { number: job } = await a.read.job.findUniqueOrThrow({ where: { id: jobId } });
    const paper = await pdfText(await quotePdf(storedQuote(frozen), "AU"));
    expect(paper).toMatch(new RegExp(`^Variation.*Job${job}`));
    const sent = await previewQuote(a, id);
    expect(sent?.state).toBe("sent");
    // What was shown before it was sent is what the customer got.
    expect(sent?.text).toEqual(draft?.text);
    expect(await foundByLink(a, revisionId)).toEqual({ text: "Rear hub bearing is rough.", photos: [] });
    const waiting = async (shop = a) =>
      (await getToday(shop, SEES)).variations.map((one) => [one.title, one.state, one.declineReason]);
    expect(await waiting()).toEqual([["Rear hub bearing", "sent", ""]]);
    const muchLater = as(a, { now: new Date(a.now.getTime() + 60 * 86_400_000) });
    expect(await waiting(muchLater)).toEqual([["Rear hub bearing", "expired", ""]]);
    expect((await getToday(a, SEES)).quotes).toEqual([]);

    const { version } = (await getQuote(a, id, { margin: false })) ?? { version: 0 };
    await declineQuote(a, { id, version, reason: "Too dear just now" });
    expect(await waiting()).toEqual([["Rear hub bearing", "declined", "Too dear just now"]]);
    expect(await foundByLink(a, revisionId)).toBeNull();
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { state: "ready" } }));
    expect(await waiting()).toEqual([]);
    expect(await waiting(b)).toEqual([]);
  });
});
