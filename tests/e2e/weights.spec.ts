import { type APIResponse, expect, test } from "@playwright/test";
import { E2E } from "../support/e2eServer";
import { requestsOf } from "../support/ownServer";
import {
  addressOf,
  PERSON_PAGES,
  PUBLIC_PAGES,
  SHOP_PAGES,
  SHOP_PAGES_OTHERWISE,
} from "../support/pageAddresses";
import { MOST_STATEMENTS, statementsOf } from "../support/pageStatements";
import { MOST, overLimit, scales } from "../support/pageWeights";
import { signIn } from "./people";

test("no page, as the demo shop has it, weighs more than a phone on a poor line carries in a moment, or asks much of the databases", async ({
  page,
}) => {
  const get = async (path: string) => (await page.request.get(path)).body();
  const weigh = scales(get);
  const heavy: string[] = [];
  const asks = async (answer: APIResponse) =>
    statementsOf(requestsOf(E2E.data), answer.headers()["x-request-id"] ?? "");
  const weighAll = async (pages: readonly string[]) => {
    for (const asked of pages) {
      const address = await addressOf(asked, async (path) => (await get(path)).toString());
      const answer = await page.request.get(address);
      const over = overLimit(await weigh(await answer.body()), MOST);
      // What only the first visit of a shop does is not a view's.
      const again = (await asks(answer)) > MOST_STATEMENTS ? await page.request.get(address) : answer;
      const statements = await asks(again);
      if (statements > MOST_STATEMENTS) over.push(`${statements} statements`);
      if (over.length > 0) heavy.push(`${asked}: ${over.join(", ")}`);
    }
  };
  await weighAll(PUBLIC_PAGES);
  await signIn(page, "saltpanOwner");
  await weighAll([...SHOP_PAGES, ...SHOP_PAGES_OTHERWISE, ...PERSON_PAGES]);
  expect(heavy).toEqual([]);
});
