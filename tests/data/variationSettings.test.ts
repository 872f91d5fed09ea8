import { expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { storedQuote } from "@/lib/data/documents/quote";
import { getCard } from "@/lib/data/jobs/card";
import { draftOf } from "@/lib/data/jobs/sheets";
import { sendQuote } from "@/lib/data/quotes/send";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import { ORIGIN, readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

it("an accepted variation adds its settings to the job's and takes none of them back", async () => {
  const { a, b } = await twoShops();
  const ready = await readyToQuote(a, 5);
  await readyToQuote(b, 5);
  const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
  const aims = async () =>
    ((await getCard(a, jobId))?.steps ?? []).flatMap((step) =>
      step.settings.map((one) => [one.def.key, one.from, one.to]),
    );
  const before = await aims();
  expect(before.find(([setting]) => setting === "mainJet")?.[2]).not.toBe(137.5);
  expect(before).toContainEqual(["airboxOpeningMm", null, 48]);

  const id = await createQuote(a, {
    bikeId: ready.bikeId,
    packageId: ready.packageId,
    variationOfId: jobId,
    findingId: undefined,
  });
  await chooseOptions(a, { id, version: 1, choices: ["snorkel"], touched: "snorkel" });
  const { revisionId } = await sendQuote(a, { id, version: 2, origin: ORIGIN });
  const row = await a.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const acknowledgements = storedQuote(row.frozen).acknowledgements.map((one) => one.key);
  const proof = { typedName: "Ines Valdborg", shownHash: row.hash ?? "", agent: "test browser" };
  await acceptQuote(a, { ...proof, revisionId, acknowledgements });

  const after = await aims();
  expect(after).toEqual(expect.arrayContaining(before));
  expect(after).toContainEqual(["snorkelFitted", null, 0]);
  const left = Object.fromEntries(
    (await draftOf(a, ready.bikeId, jobId, "asLeft")).map((one) => [one.setting, one.value]),
  );
  expect(left).toMatchObject({
    airboxOpeningMm: 48,
    snorkelFitted: 0,
    mainJet: before.find(([setting]) => setting === "mainJet")?.[2],
  });
  expect(await b.read.job.count()).toBe(0);
});
