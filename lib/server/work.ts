import { hasErasedToSettle, settleErased } from "@/lib/data/erasing/again";
import { hasRecordsOver, nextRecordOver } from "@/lib/data/erasing/keeping";
import { minimiseOver } from "@/lib/data/erasing/minimise";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { hasMailDue, mailQueueOf, nextMail } from "@/lib/data/mail/queue";
import { CHECKS, checkRevisions, hasUnchecked } from "@/lib/data/packages/checked";
import { hasStaleStaff, settleStaff } from "@/lib/data/people/staff";
import { nextPhotoSweep, sweepPhotos } from "@/lib/data/photos/sweep";
import { nextQuoteRound } from "@/lib/data/quotes/nextRound";
import { type QuoteRound, quoteRound } from "@/lib/data/quotes/rounds";
import { hasOldKeys, nextKeySweep, sweepKeys } from "@/lib/data/shop/sweepKeys";
import { ERASING_AGAIN, KEEPING_RECORDS, SENDING, SETTLING_STAFF } from "@/lib/db/due";
import { SEARCHED } from "@/lib/db/engine";
import { mergeSearchIn } from "@/lib/db/searchMerge";
import { publicUrl } from "@/lib/gate/origin";
import { mailer } from "@/lib/outside/mail";
import { type Sent, sendDue } from "@/lib/outside/mailQueue";
import { photoStore } from "@/lib/outside/photoStore";
import { printForMail } from "@/lib/workers/mailPrints";
import type { ShopWork } from "./eachShop";
import { type LetterRound, letterRound, nextLetters, wantsLetters } from "./letterRound";

const always = async () => true;
/** Nothing comes up by time alone. */
const never = async () => null;

/** What runs out, what is to be reminded of. */
export const QUOTES: ShopWork<QuoteRound> = {
  name: "quotes",
  wanted: always,
  run: (shop) => quoteRound(shop, publicUrl().origin),
  mailed: ({ reminded }) => reminded > 0,
  next: nextQuoteRound,
};

/** Letters that a shop lets the rounds write: the day before, of late payments, how it runs. */
export const LETTERS: ShopWork<LetterRound> = {
  name: "letters",
  inSamples: false,
  wanted: wantsLetters,
  run: (shop) => letterRound(shop, publicUrl().origin),
  mailed: ({ dayBefore, payments, howRuns }) => dayBefore + payments + howRuns > 0,
  next: nextLetters,
};

/** Packages whose checks have not run since the checks changed. */
export const PACKAGES: ShopWork<number> = {
  name: "packages",
  basis: CHECKS,
  wanted: hasUnchecked,
  run: checkRevisions,
  next: async (shop) => ((await hasUnchecked(shop)) ? shop.now : null),
};

/** Mails that are due; none go where no mail server is set up. */
export const MAIL: ShopWork<Sent> = {
  name: SENDING,
  inSamples: false,
  wanted: async (shop) => mailer() !== null && (await hasMailDue(shop)),
  run: (shop) =>
    sendDue(
      mailQueueOf(shop, () => new Date()),
      mailer(),
      (enclosed) => printForMail(shop, enclosed),
    ),
  next: nextMail,
};

/** What a search finds by, put in order a table at a time. */
export const SEARCH: ShopWork<number> = {
  name: "search",
  wanted: always,
  run: async (shop) => {
    for (const table of SEARCHED) await shop.write((tx) => mergeSearchIn(tx, [table]));
    return SEARCHED.length;
  },
  next: never,
};

/** Customers who were erased and are here again, out of an older copy. */
export const ERASED_AGAIN: ShopWork<number> = {
  name: ERASING_AGAIN,
  inSamples: false,
  wanted: hasErasedToSettle,
  run: (shop) => settleErased(shop, photoStore(shop)),
  next: never,
};

/** Records of erased customers that the law wants kept no longer. */
export const KEEPING: ShopWork<number> = {
  name: KEEPING_RECORDS,
  wanted: hasRecordsOver,
  run: minimiseOver,
  next: nextRecordOver,
};

/** Keys of requests that are kept no longer. */
export const KEYS: ShopWork<number> = {
  name: "keys",
  wanted: hasOldKeys,
  run: sweepKeys,
  next: nextKeySweep,
};

/** Rows of people that a stop left behind the directory. */
export const STAFF: ShopWork<number> = {
  name: SETTLING_STAFF,
  inSamples: false,
  wanted: hasStaleStaff,
  run: (shop) => settleStaff(shop, endWorkOfIn),
  next: never,
};

/** Photos taken off long ago, and files that no photo names. */
export const PHOTOS: ShopWork<{ photos: number; files: number }> = {
  name: "photos",
  wanted: always,
  run: (shop) => sweepPhotos(shop, photoStore(shop)),
  next: (shop) => nextPhotoSweep(shop, photoStore(shop)),
};

/** What is looked at in each shop every day. The search's order is no matter of truth. */
export const LOOKED_AT = [
  QUOTES,
  LETTERS,
  PACKAGES,
  PHOTOS,
  STAFF,
  KEYS,
  KEEPING,
  ERASED_AGAIN,
  MAIL,
] as const;
