import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { accountOf } from "../shop/account";

export type FirstStepKey =
  | "identity"
  | "rate"
  | "hours"
  | "people"
  | "data"
  | "package"
  | "published"
  | "quote";

export interface FirstStep {
  readonly key: FirstStepKey;
  readonly done: boolean;
}

/** What of the shop's settings the list looks at. */
interface StepSettings {
  readonly firstSteps: boolean;
  readonly address: string;
  readonly bankDetails: string;
}

/**
 * What a new shop does first, each done by doing it; null once the list was put away or all of it is done. The list that is
 * all done puts itself away, so that from then on no view asks anything for it.
 */
export async function firstSteps(
  shop: ShopHandle,
  settings: StepSettings,
): Promise<readonly FirstStep[] | null> {
  if (!settings.firstSteps) return null;
  const one = { select: { id: true }, orderBy: { id: "asc" } } as const;
  const [account, unset, hours, people, customer, part, recipe, published, quote] = await Promise.all([
    accountOf(shop.read),
    shop.read.labourGrade.count({ where: { rateSet: false } }),
    shop.read.auditEntry.findFirst({ where: { act: { in: ["changed hours"] }, noun: "person" }, ...one }),
    shop.read.staff.count(),
    shop.read.customer.findFirst(one),
    shop.read.part.findFirst(one),
    shop.read.package.findFirst(one),
    shop.read.packageRevision.findFirst({ where: { state: "published" }, ...one }),
    shop.read.quote.findFirst(one),
  ]);
  const done: Readonly<Record<FirstStepKey, boolean>> = {
    identity: Boolean(settings.address && (account || settings.bankDetails)),
    rate: unset === 0,
    hours: hours !== null,
    people: people > 1,
    data: customer !== null || part !== null,
    package: recipe !== null,
    published: published !== null,
    quote: quote !== null,
  };
  const steps = Object.entries(done).map(([key, is]) => ({ key: key as FirstStepKey, done: is }));
  if (!steps.every((step) => step.done)) return steps;
  await setFirstSteps(shop, false, "finished first steps");
  return null;
}

/** Puts the list of first steps away, or brings it back. */
export function showFirstSteps(shop: ShopHandle, shown: boolean): Promise<void> {
  return setFirstSteps(shop, shown, shown ? "brought back first steps" : "put first steps away");
}

async function setFirstSteps(shop: ShopHandle, shown: boolean, act: string): Promise<void> {
  await shop.write(async (tx) => {
    const { count } = await tx.settings.updateMany({
      where: { id: 1, firstSteps: !shown },
      data: { firstSteps: shown },
    });
    if (count > 0) await audit(tx, shop, act, "shop", null);
  });
}
