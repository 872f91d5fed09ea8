import { giveWay } from "@/lib/db/giveWay";
import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { factsOf, findQuote } from "./rows";
import { settled } from "./write";

export interface WhatIf {
  readonly key: string;
  readonly name: string;
  /** True where the quote has the option now: the row tells of leaving it out. */
  readonly on: boolean;
  /** Options that come or go with it, by name. */
  readonly also: readonly string[];
  readonly minutes: number;
  readonly grossMinor: number;
  readonly minutesMore: number;
  readonly grossMore: number;
}

export interface WhatIfs {
  readonly number: string;
  readonly minutes: number;
  readonly grossMinor: number;
  readonly currency: string;
  readonly locale: string;
  readonly rows: readonly WhatIf[];
}

/** What each option would change in a draft if it were ticked or left out; null where there is no such draft. */
export async function whatIfs(shop: ShopHandle, id: number): Promise<WhatIfs | null> {
  const found = await findQuote(shop.read, id);
  if (found?.quote.state !== "draft") return null;
  const facts = await factsOf(shop.read, found, shop.now);
  const now = computeQuote(facts);
  const name = (key: string) => facts.recipe.options.find((o) => o.key === key)?.name ?? key;
  const rows: WhatIf[] = [];
  for (const option of facts.recipe.options) {
    await giveWay();
    const on = now.choice.chosen.includes(option.key);
    const ticks = on
      ? now.choice.chosen.filter((key) => key !== option.key)
      : [...now.choice.chosen, option.key];
    const choices = settled(facts.recipe, ticks, on ? "" : option.key, facts.modelFacts);
    const then = computeQuote({ ...facts, choices });
    // It comes back by itself, or cannot be had: nothing to compare.
    if (then.choice.chosen.includes(option.key) === on) continue;
    const differ = [...now.choice.chosen, ...then.choice.chosen].filter(
      (key) => key !== option.key && now.choice.chosen.includes(key) !== then.choice.chosen.includes(key),
    );
    rows.push({
      key: option.key,
      name: option.name,
      on,
      also: [...new Set(differ)].map(name),
      minutes: then.plan.minutes,
      grossMinor: then.price.grossMinor,
      minutesMore: then.plan.minutes - now.plan.minutes,
      grossMore: then.price.grossMinor - now.price.grossMinor,
    });
  }
  const { currency, locale } = facts.terms;
  return {
    number: found.quote.number,
    minutes: now.plan.minutes,
    grossMinor: now.price.grossMinor,
    currency,
    locale,
    rows,
  };
}
