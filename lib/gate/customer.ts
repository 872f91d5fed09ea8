import { revalidatePath } from "next/cache";
import { headers } from "next/headers";
import { cache } from "react";
import type { z } from "zod";
import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";
import { noteRequest } from "@/lib/log/request";
import type { FormAction } from "@/lib/schemas/formState";
import { customerLocale } from "@/lib/words/language";
import { links } from "@/lib/words/links";
import { failureIn, refusalIn } from "@/lib/words/refusal";
import { answer, type Call, keyOf, type Outcome } from "./action";
import { handleFor } from "./handle";
import { askedLocale } from "./language";
import { failedOpening } from "./openings";
import { orShut } from "./shut";

/** A customer's link that opens: its shop, seen as this customer, and the one document it is for. */
export interface OpenedLink {
  readonly shop: ShopHandle;
  /** A sample shop's: nothing in it is real. */
  readonly sample: boolean;
  readonly shopName: string;
  /** Whose language the page speaks, with the formats of the shop's place. */
  readonly locale: string;
  /** Null for a sale to nobody known by name. */
  readonly customerId: number | null;
  readonly id: number;
  readonly purpose: "quote" | "job" | "invoice";
  readonly revisionId: number | null;
  readonly jobId: number | null;
  readonly invoiceId: number | null;
}

/**
 * Why a link does not open, and in whose language to say so. "unknown" is said of wrong shops and wrong tokens alike, and
 * tells nothing of a shop; only a link that was once good leads to its shop.
 */
export type ClosedLink =
  | { readonly closed: "unknown" | "too often" | "shut"; readonly locale: string }
  | { readonly closed: "over"; readonly locale: string; readonly shop: ShopHandle };

const SHAPE = /^[A-Za-z0-9_-]{27}$/;

/**
 * Opens a customer's link, or says why not: nothing of the shop is told before the token has been found in its database.
 * A link that opens is never held up, nor counted with its photos: only wrong ones are.
 */
export async function openLink(slug: string, token: string): Promise<OpenedLink | ClosedLink> {
  const now = new Date();
  const opened = await find(slug, token, now);
  if (typeof opened !== "string") return opened;
  const locale = askedLocale(await headers());
  if (opened === "shut") return { closed: "shut", locale };
  try {
    await failedOpening("link", now);
  } catch (cause) {
    if (cause instanceof Refusal) return { closed: "too often", locale };
    throw cause;
  }
  return { closed: "unknown", locale };
}

/** What comes within this of an opening belongs to it: reloads, and the page after an answer (judgement). */
const ONE_OPENING_MS = 10 * 60_000;

/**
 * Notes that a link's page was opened, for the shop to see: when first, when last, how often. Nothing of who or with what.
 * Its files and photos are not counted.
 */
export async function noteOpening({ shop, id }: Pick<OpenedLink, "shop" | "id">): Promise<void> {
  const { now } = shop;
  const fresh = { lt: new Date(now.getTime() - ONE_OPENING_MS) };
  const where = { id, OR: [{ lastOpenedAt: null }, { lastOpenedAt: fresh }] };
  // Looked at first, so that a reload takes no turn at the shop's one writer.
  if (!(await shop.read.customerLink.findFirst({ where, select: { id: true }, orderBy: { id: "asc" } })))
    return;
  await shop.write(async (tx) => {
    const { count } = await tx.customerLink.updateMany({
      where,
      data: { lastOpenedAt: now, openings: { increment: 1 } },
    });
    if (count > 0)
      await tx.customerLink.updateMany({ where: { id, openedAt: null }, data: { openedAt: now } });
  });
}

/** The same for the pages of one request: its frame and what stands in it open a link once. */
export const openLinkOnce = cache(openLink);

/** The language that a page is in: a customer's pages speak theirs, all others are the staff's and English. */
export async function pageLocale(path: string): Promise<string> {
  const [, area, slug, token] = path.split("/");
  if (area !== "c" || !slug || !token) return "en";
  return (await openLinkOnce(slug, token)).locale;
}

const CUSTOMER = { select: { id: true, language: true } } as const;

async function find(
  slug: string,
  token: string,
  now: Date,
): Promise<OpenedLink | ClosedLink | "unknown" | "shut"> {
  if (!SHAPE.test(token)) return "unknown";
  const place = await directory().read.shop.findFirst({
    where: { slug, closedAt: null },
    select: { slug: true, name: true, database: true, server: true, sample: true },
  });
  if (!place) return "unknown";
  noteRequest({ shop: slug });
  const nobody = { personId: "customer", name: "Customer", role: "customer" as const, staffId: null };
  const opened = await orShut(place, async () => {
    const shop = handleFor(place, nobody, now);
    const link = await shop.read.customerLink.findUnique({ where: { tokenHash: tokenHash(token) } });
    return { shop, link, spoken: link && (await spokenTo(shop, link)) };
  });
  if (opened === "shut") return "shut";
  const { shop, link, spoken } = opened;
  if (!link || !spoken) return "unknown";
  const { locale, customerId } = spoken;
  if (link.revokedAt !== null || link.expiresAt <= now) return { closed: "over", locale, shop };
  const { id, purpose, revisionId, jobId, invoiceId } = link;
  const by = { ...nobody, personId: `link-${id}`, name: "Customer by link" };
  return {
    shop: { ...shop, by },
    shopName: place.name,
    locale,
    customerId,
    sample: place.sample,
    id,
    purpose,
    revisionId,
    jobId,
    invoiceId,
  };
}

/** Whom a link is for, and the locale they are spoken to in. */
async function spokenTo(
  shop: ShopHandle,
  link: { revisionId: number | null; jobId: number | null; invoiceId: number | null },
): Promise<{ locale: string; customerId: number | null }> {
  const { locale } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { locale: true },
  });
  const customer = await customerOf(shop, link);
  return { locale: customerLocale(locale, customer?.language ?? ""), customerId: customer?.id ?? null };
}

async function customerOf(
  { read }: ShopHandle,
  {
    revisionId,
    jobId,
    invoiceId,
  }: { revisionId: number | null; jobId: number | null; invoiceId: number | null },
): Promise<{ id: number; language: string } | null> {
  if (revisionId !== null) {
    const select = { quote: { select: { customer: CUSTOMER } } };
    return (
      (await read.quoteRevision.findUnique({ where: { id: revisionId }, select }))?.quote.customer ?? null
    );
  }
  if (jobId !== null)
    return (
      (await read.job.findUnique({ where: { id: jobId }, select: { customer: CUSTOMER } }))?.customer ?? null
    );
  if (invoiceId === null) return null;
  return (
    (await read.invoice.findUnique({ where: { id: invoiceId }, select: { customer: CUSTOMER } }))?.customer ??
    null
  );
}

/**
 * The one way a customer's form writes: the same checks and answers as a signed-in person's, the link (`_shop`, `_token`)
 * standing in for the session.
 */
export function customerAction<S extends z.ZodType>(
  schema: S,
  run: (link: OpenedLink, input: z.output<S>, call: Call) => Promise<Outcome>,
): FormAction {
  return async (before, data) => {
    let locale = "en";
    const state = await answer(before, data, { schema }, async (input) => {
      const slug = String(data.get("_shop") ?? "");
      const token = String(data.get("_token") ?? "");
      const link = await openLink(slug, token);
      locale = link.locale;
      try {
        if ("closed" in link) throw closedRefusal(link.closed);
        const given = input();
        const outcome = await run(link, given, { key: keyOf(data, given) });
        revalidatePath(`/c/${slug}/${token}`);
        return outcome;
      } catch (cause) {
        throw cause instanceof Refusal ? refusalIn(cause, locale) : cause;
      }
    });
    return state.bug === undefined ? state : { ...state, ...failureIn(locale, state.bug) };
  };
}

function closedRefusal(closed: ClosedLink["closed"]): Refusal {
  if (closed === "too often")
    return new Refusal(
      "Too many tries in a short time.",
      "Wait ten minutes, then try again.",
      {},
      "tooOften",
    );
  if (closed === "shut") return new Refusal(links.en.shut, links.en.shutText);
  return new Refusal("This link no longer works.", "Ask the shop for a new one.", {}, "missing");
}
