import { revalidatePath } from "next/cache";
import type { z } from "zod";
import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";
import { noteRequest } from "@/lib/log/request";
import type { FormAction } from "@/lib/schemas/formState";
import { answer, type Call, keyOf, type Outcome } from "./action";
import { handleFor } from "./handle";
import { failedOpening } from "./openings";
import { orShut } from "./shut";

/** A customer's link that opens: its shop, seen as this customer, and the one document it is for. */
export interface OpenedLink {
  readonly shop: ShopHandle;
  /** A sample shop's: nothing in it is real. */
  readonly sample: boolean;
  readonly shopName: string;
  readonly id: number;
  readonly purpose: "quote" | "job" | "invoice";
  readonly revisionId: number | null;
  readonly jobId: number | null;
  readonly invoiceId: number | null;
}

/** Why a link does not open. "unknown" is said of wrong shops and wrong tokens alike. */
export type ClosedLink = "unknown" | "over" | "too often" | "shut";

const SHAPE = /^[A-Za-z0-9_-]{27}$/;

export const SHUT = "The workshop's records cannot be opened just now.";
export const SHUT_REMEDY =
  "Nothing is wrong with your bike or your order. Try again later, or ask the workshop by phone.";

/**
 * Opens a customer's link, or says why not: nothing of the shop is told before the token has been found in its database.
 * A link that opens is never held up, nor counted with its photos: only wrong ones are.
 */
export async function openLink(slug: string, token: string): Promise<OpenedLink | ClosedLink> {
  const now = new Date();
  const opened = await find(slug, token, now);
  if (opened !== "unknown") return opened;
  try {
    await failedOpening("link", now);
  } catch (cause) {
    if (cause instanceof Refusal) return "too often";
    throw cause;
  }
  return opened;
}

async function find(
  slug: string,
  token: string,
  now: Date,
): Promise<OpenedLink | "unknown" | "over" | "shut"> {
  if (!SHAPE.test(token)) return "unknown";
  const place = await directory().read.shop.findFirst({
    where: { slug, closedAt: null },
    select: { slug: true, name: true, database: true, sample: true },
  });
  if (!place) return "unknown";
  noteRequest({ shop: slug });
  const nobody = { personId: "customer", name: "Customer", role: "customer" as const, staffId: null };
  const opened = await orShut(place, async () => {
    const shop = handleFor(place, nobody, now);
    return {
      shop,
      link: await shop.read.customerLink.findUnique({ where: { tokenHash: tokenHash(token) } }),
    };
  });
  if (opened === "shut") return "shut";
  const { shop, link } = opened;
  if (!link) return "unknown";
  if (link.revokedAt !== null || link.expiresAt <= now) return "over";
  if (link.openedAt === null)
    await shop.write((tx) =>
      tx.customerLink.updateMany({ where: { id: link.id, openedAt: null }, data: { openedAt: now } }),
    );
  const { id, purpose, revisionId, jobId, invoiceId } = link;
  const by = { ...nobody, personId: `link-${id}`, name: "Customer by link" };
  return {
    shop: { ...shop, by },
    shopName: place.name,
    sample: place.sample,
    id,
    purpose,
    revisionId,
    jobId,
    invoiceId,
  };
}

/**
 * The one way a customer's form writes: the same checks and answers as a signed-in person's, the link (`_shop`, `_token`)
 * standing in for the session.
 */
export function customerAction<S extends z.ZodType>(
  schema: S,
  run: (link: OpenedLink, input: z.output<S>, call: Call) => Promise<Outcome>,
): FormAction {
  return (before, data) =>
    answer(before, data, { schema }, async (input) => {
      const slug = String(data.get("_shop") ?? "");
      const token = String(data.get("_token") ?? "");
      const link = await openLink(slug, token);
      if (link === "too often")
        throw new Refusal(
          "Too many tries in a short time.",
          "Wait ten minutes, then try again.",
          {},
          "tooOften",
        );
      if (link === "shut") throw new Refusal(SHUT, SHUT_REMEDY);
      if (typeof link === "string")
        throw new Refusal("This link no longer works.", "Ask the shop for a new one.", {}, "missing");
      const given = input();
      const outcome = await run(link, given, { key: keyOf(data, given) });
      revalidatePath(`/c/${slug}/${token}`);
      return outcome;
    });
}
