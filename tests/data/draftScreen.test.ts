import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { screenStore } from "@/app/_ui/screenStore";
import { quoteScreen, screenOf } from "@/app/s/[shop]/quotes/[id]/shown/screen";
import { getQuote } from "@/lib/data/quotes/get";
import { discountQuote, offerExtras, setDeposit } from "@/lib/data/quotes/terms";
import { addPackage } from "@/lib/data/quotes/works";
import { chooseOptions, createQuote, setConditions } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { changeOf, MOST_OF_CHANGE, markOf, type ScreenView } from "@/lib/gate/change";
import type { OpenShop } from "@/lib/gate/open";
import { shopSettings } from "@/lib/gate/settings";
import { BREATHING, type Ready, readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";
import { FULL } from "../support/size";

const OPTIONS = BREATHING.options.map((option) => option.key);
const asSent = (view: ScreenView) => JSON.parse(JSON.stringify(view));

type Act = (shop: ShopHandle, at: { id: number; version: number }) => Promise<unknown>;

const acts: fc.Arbitrary<Act> = fc
  .oneof({ weight: 5, arbitrary: fc.tuple(fc.subarray(OPTIONS), fc.constantFrom(...OPTIONS)) })
  .map(
    ([choices, touched]): Act =>
      (shop, at) =>
        chooseOptions(shop, { ...at, choices, touched }),
  );

const terms: fc.Arbitrary<Act> = fc.oneof(
  fc.integer({ min: 0, max: 30 }).map(
    (percent): Act =>
      (shop, at) =>
        discountQuote(shop, {
          ...at,
          how: percent > 0 ? "percent" : "none",
          amount: String(percent),
          why: "Regular",
        }),
  ),
  fc.integer({ min: 0, max: 60 }).map(
    (percent): Act =>
      (shop, at) =>
        setDeposit(shop, { ...at, how: "percent", amount: String(percent) }),
  ),
  fc.subarray(OPTIONS).map(
    (extras): Act =>
      (shop, at) =>
        offerExtras(shop, { ...at, extras }),
  ),
  fc.constant<Act>((shop, at) =>
    setConditions(shop, {
      ...at,
      altitudeM: 900,
      season: "winter",
      temperatureC: null,
      humidityPercent: null,
    }),
  ),
);

describe("a draft's page after an act, by what the act answers", () => {
  let [shop, other]: OpenShop[] = [];
  let ready: Ready;

  const opened = async (handle: ShopHandle): Promise<OpenShop> => {
    const { settings } = await shopSettings(handle, handle.by.personId);
    return { ...handle, settings, can: () => true } as unknown as OpenShop;
  };
  const read = async (id: number, of = shop) => {
    const screen = await screenOf(of as OpenShop, { id });
    if (!screen) throw new Error("There is no such quote.");
    return screen;
  };

  beforeAll(async () => {
    const { a, b } = await twoShops();
    [shop, other] = [await opened(a), await opened(b)];
    ready = await readyToQuote(a, 5);
    await createQuote(b, { bikeId: (await readyToQuote(b, 5)).bikeId });
  });

  it("shows what the page shows when it is read anew, after any row of ticks and terms", async () => {
    const [here, there] = [shop as OpenShop, other as OpenShop];
    const elsewhere = markOf(await read(1, there));
    let changes = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(fc.oneof(acts, acts, terms), { minLength: 1, maxLength: 6 }), async (row) => {
        const id = await createQuote(here, { bikeId: ready.bikeId, packageId: ready.packageId });
        let before = await read(id);
        const page = screenStore(asSent(before), markOf(before));
        for (const act of row) {
          await act(here, { id, version: before.version });
          const after = await read(id);
          const change = changeOf(before, after);
          // What is not sent as a change is seen on the page, drawn anew.
          if (!change) return;
          changes += 1;
          expect(JSON.stringify(change.delta).length).toBeLessThanOrEqual(MOST_OF_CHANGE);
          expect(page.take(JSON.parse(JSON.stringify(change)))).toBe(true);
          expect(page.view()).toEqual(asSent(after));
          expect(page.mark()).toBe(markOf(after));
          before = after;
        }
      }),
      { numRuns: FULL ? 60 : 5 },
    );
    expect(changes).toBeGreaterThan(0);
    expect(markOf(await read(1, there))).toBe(elsewhere);
  });

  it("sends what changed and nothing else: a discount changes no plan, no choice and no curve", async () => {
    const here = shop as OpenShop;
    const id = await createQuote(here, { bikeId: ready.bikeId, packageId: ready.packageId });
    const before = await read(id);
    await discountQuote(here, { id, version: 1, how: "percent", amount: "10", why: "Regular" });
    const change = changeOf(before, await read(id));
    const draft = change && "in" in change.delta ? change.delta.in.draft : undefined;
    expect(Object.keys(draft && "in" in draft ? draft.in : {}).sort()).toEqual(
      ["forms", "margin", "price", "terms"].sort(),
    );
  });

  it("is drawn anew where the server alone draws what changed: another package", async () => {
    const here = shop as OpenShop;
    const id = await createQuote(here, { bikeId: ready.bikeId });
    const before = await read(id);
    await addPackage(here, { id, version: 1, packageId: ready.packageId });
    expect(changeOf(before, await read(id))).toBeNull();
  });

  it("is drawn anew by whoever has another page before them: stock that came meanwhile has another mark", async () => {
    const here = shop as OpenShop;
    const id = await createQuote(here, { bikeId: ready.bikeId, packageId: ready.packageId });
    const before = await read(id);
    const part = await here.read.part.findFirstOrThrow({ where: { code: "BF-20" }, select: { id: true } });
    await recordMove(here, { partId: part.id, kind: "count", quantityMilli: -5000, unitCostE4: 96_000 });
    const now = await read(id);
    expect(now.version).toBe(before.version);
    expect(markOf(now)).not.toBe(markOf(before));
  });

  it("tells costs and margins to those who may see them alone", async () => {
    const here = shop as OpenShop;
    const id = await createQuote(here, { bikeId: ready.bikeId, packageId: ready.packageId });
    const quote = await getQuote(here, id, { margin: false });
    if (!quote) throw new Error("There is no such quote.");
    const blind = { ...here, can: (permission: string) => permission !== "margin.read" } as OpenShop;
    const screen = await quoteScreen(blind, quote);
    expect(screen.draft?.margin).toBeNull();
    expect(JSON.stringify(screen.draft?.price.build)).not.toMatch(/Cost|Margin/);
  });
});
