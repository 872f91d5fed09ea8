import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { giveWay } from "@/lib/db/giveWay";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { may, type Role } from "@/lib/domain/access/permissions";
import { marginBp } from "@/lib/domain/pricing/margin";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import { Refusal } from "@/lib/domain/refusal";
import type { AllowMargin } from "@/lib/schemas/quotes";
import type { FrozenQuote } from "../documents/quote";
import { extraChoices } from "./extras";
import { alternativeView, type KeptAlternative, keptAlternatives } from "./offered";
import { conflict, demandQuote, factsOf, notADraft } from "./rows";

/** Who said that a quote may go out below the shop's least margin, at what margin, and why. */
export interface BelowMargin {
  readonly why: string;
  readonly by: string;
  /** Basis points of net; null where nothing was charged. */
  readonly marginBp: number | null;
  readonly at: string;
}

/** What was said of a revision's margin, as it was kept; null where nothing was. */
export const storedBelowMargin = (json: unknown): BelowMargin | null => (json as BelowMargin | null) ?? null;

/** What is left of a price at most: costs that nobody knows count as nothing. */
const marginOf = ({ price }: Pick<QuoteView, "price">): number | null =>
  marginBp(price.netMinor, price.costMinor);

/** Whether a price below the least margin was allowed: what was said holds for that margin and any better one. */
export function isAllowed(view: QuoteView, said: BelowMargin | null): boolean {
  if (!view.belowLeast) return true;
  if (said === null) return false;
  const now = marginOf(view);
  return said.marginBp === null || (now !== null && now >= said.marginBp);
}

/** Every price that the customer may come to by one choice: the quote as it is, each alternative, each extra added. */
export function everyChoice(
  facts: QuoteFacts,
  view: QuoteView,
  offered: Pick<FrozenQuote, "extras" | "alternatives">,
): QuoteView[] {
  const alternatives = (offered.alternatives ?? []).map((alternative) =>
    computeQuote({ ...facts, choices: alternative.choices }),
  );
  const extras = (offered.extras ?? []).map(({ key }) =>
    computeQuote({ ...facts, choices: [...view.choice.chosen, key] }),
  );
  return [view, ...alternatives, ...extras];
}

/** A price that the customer may come to and that is below the least margin. */
export interface BelowLeast {
  /** What it is of, in words: "With the extra “Air filter”"; empty for the quote as it is. */
  readonly of: string;
  /** Basis points of net; null where nothing is charged. */
  readonly marginBp: number | null;
  readonly allowed: boolean;
}

/** The prices below the least margin that a draft may come to: as it is, in a kept alternative, with an offered extra added. */
export async function pricesBelow(
  facts: QuoteFacts,
  view: QuoteView,
  kept: readonly KeptAlternative[],
  said: BelowMargin | null,
): Promise<BelowLeast[]> {
  const below: BelowLeast[] = [];
  const look = (of: string, its: QuoteView) => {
    if (its.belowLeast) below.push({ of, marginBp: marginOf(its), allowed: isAllowed(its, said) });
  };
  look("", view);
  for (const { letter, choices } of kept) {
    await giveWay();
    look(`Alternative ${letter}`, alternativeView(facts, choices));
  }
  for (const { key, name } of extraChoices(facts, view).filter((one) => one.offered)) {
    await giveWay();
    look(`With the extra “${name}”`, computeQuote({ ...facts, choices: [...view.choice.chosen, key] }));
  }
  return below;
}

/** The worst of some margins: null, where nothing is charged, is worse than any. */
const worst = (below: readonly BelowLeast[]): number | null =>
  below.some((one) => one.marginBp === null) ? null : Math.min(...below.map((one) => one.marginBp ?? 0));

/** Refuses to send prices below the least margin that nobody has allowed. `views` are all that the customer may come to choose. */
export function demandAllowed(number: string, views: readonly QuoteView[], said: BelowMargin | null): void {
  if (views.every((view) => isAllowed(view, said))) return;
  throw new Refusal(
    `Quote ${number} is below the shop's least margin${views.length > 1 ? ", or a choice in it is" : ""}.`,
    "Change the price, or ask an owner to allow it, with a reason, on the quote.",
  );
}

/**
 * Says that a draft may go out below the least margin, and why: as it is, in its kept alternatives and with its extras. The reason
 * stays with the revision.
 */
export async function allowBelowMargin(
  shop: ShopHandle,
  input: AllowMargin & { key?: string | undefined },
): Promise<void> {
  if (!may(shop.by.role as Role, "margin.override"))
    throw new Refusal(
      "Only an owner may let a quote go below the least margin.",
      "Ask an owner, or change the price.",
      {},
      "forbidden",
    );
  await shop.write((tx) =>
    once(tx, shop, "allowed a price below the least margin", input, async () => {
      const found = await demandQuote(tx, input.id);
      const { quote, revision } = found;
      if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
      const facts = await factsOf(tx, found, shop.now);
      const kept = await keptAlternatives(tx, quote.id);
      const below = await pricesBelow(facts, computeQuote(facts), kept, null);
      if (below.length === 0)
        throw new Refusal(`Quote ${quote.number} is not below the least margin.`, "It can be sent as it is.");
      const said: BelowMargin = {
        why: input.reason,
        by: shop.by.name,
        marginBp: worst(below),
        at: shop.now.toISOString(),
      };
      await demandOne(
        tx.quote.updateMany({
          where: { id: quote.id, state: "draft", version: input.version },
          data: { version: { increment: 1 } },
        }),
        () => conflict(tx, quote.id, quote.number),
      );
      await tx.quoteRevision.update({
        where: { id: revision.id },
        data: { belowMargin: said as unknown as Prisma.InputJsonObject },
        select: { id: true },
      });
      await audit(tx, shop, "allowed below the least margin", "quote", quote.id, {
        number: quote.number,
        revision: revision.number,
        marginBp: said.marginBp,
        why: said.why,
      });
      return quote.id;
    }),
  );
}
