import type { ShopHandle } from "@/lib/db/shop";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";

export interface Proof {
  readonly frozen: FrozenQuote;
  readonly hash: string;
  /** True where the kept text still gives the hash that was stored with it. */
  readonly sound: boolean;
  readonly acceptance: {
    readonly typedName: string;
    readonly at: Date;
    readonly agent: string;
    /** True where what was shown had this hash. */
    readonly same: boolean;
    /** The texts ticked. */
    readonly acknowledged: readonly string[];
  } | null;
}

/** The newest printed revision of a quote, whether its text is unaltered, and the yes it was given; null where none was sent. */
export async function quoteProof(shop: ShopHandle, quoteId: number): Promise<Proof | null> {
  const row = await shop.read.quoteRevision.findFirst({
    where: { quoteId, frozenAt: { not: null } },
    select: {
      frozen: true,
      hash: true,
      acceptance: {
        select: { typedName: true, at: true, agent: true, shownHash: true, acknowledgements: true },
      },
    },
    orderBy: { number: "desc" },
  });
  if (!row || row.hash === null) return null;
  const frozen = storedQuote(row.frozen);
  const { acceptance } = row;
  const ticked = Array.isArray(acceptance?.acknowledgements) ? acceptance.acknowledgements : [];
  return {
    frozen,
    hash: row.hash,
    sound: hashOf(row.frozen) === row.hash,
    acceptance: acceptance && {
      typedName: acceptance.typedName,
      at: acceptance.at,
      agent: acceptance.agent,
      same: acceptance.shownHash === row.hash,
      acknowledged: frozen.acknowledgements.filter((a) => ticked.includes(a.key)).map((a) => a.text),
    },
  };
}
