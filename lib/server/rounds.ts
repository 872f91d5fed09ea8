import { sweepUnfinished } from "@/lib/data/people/createShop";
import { sweepMails } from "@/lib/data/people/mails";
import { sweepSignUps } from "@/lib/data/people/signUps";
import { sweepLimits } from "@/lib/gate/limit";
import { log } from "@/lib/log/log";
import { mailer } from "@/lib/outside/mail";
import { eachShop } from "./eachShop";
import { lookAgain } from "./lookAgain";
import { eraseRound } from "./moving/eraseRound";
import { exportRound, sweepExports } from "./moving/exportRound";
import { sampleRound } from "./sample/round";
import {
  ERASED_AGAIN,
  KEEPING,
  KEYS,
  LETTERS,
  LOOKED_AT,
  MAIL,
  PACKAGES,
  PHOTOS,
  QUOTES,
  SEARCH,
  STAFF,
} from "./work";

const SECOND = 1_000;
const MINUTE = 60 * SECOND;
/** So many shops a minute are looked at that were not for a day: enough for 14,000 of them. */
const LOOKS = 10;
const clock = () => new Date();

/** Rounds for as long as the server runs, of each work one at a time. */
export function startRounds(): void {
  if (mailer()) repeat("mail", { first: 5 * SECOND, pause: 20 * SECOND }, () => eachShop(MAIL, clock));
  repeat("samples", { first: 3 * SECOND, pause: 2 * SECOND }, () => sampleRound(clock));
  repeat("exports", { first: 4 * SECOND, pause: 2 * SECOND }, () => exportRound(clock));
  repeat("erasures", { first: 10 * MINUTE, pause: 60 * MINUTE }, () => eraseRound(clock));
  repeat("quotes", { first: MINUTE, pause: 15 * MINUTE }, () => eachShop(QUOTES, clock));
  repeat("letters", { first: 2 * MINUTE, pause: 15 * MINUTE }, () => eachShop(LETTERS, clock));
  repeat("packages", { first: 2 * MINUTE, pause: 15 * MINUTE }, () => eachShop(PACKAGES, clock));
  repeat("photos", { first: 20 * MINUTE, pause: 360 * MINUTE }, () => eachShop(PHOTOS, clock));
  repeat("staff", { first: 3 * MINUTE, pause: 60 * MINUTE }, () => eachShop(STAFF, clock));
  repeat("keys", { first: 25 * MINUTE, pause: 360 * MINUTE }, () => eachShop(KEYS, clock));
  repeat("erasedAgain", { first: 4 * MINUTE, pause: 60 * MINUTE }, () => eachShop(ERASED_AGAIN, clock));
  repeat("keeping", { first: 30 * MINUTE, pause: 360 * MINUTE }, () => eachShop(KEEPING, clock));
  repeat("search", { first: 40 * MINUTE, pause: 1440 * MINUTE }, () => eachShop(SEARCH, clock));
  repeat("looks", { first: 5 * MINUTE, pause: MINUTE }, () => lookAgain(LOOKED_AT, clock, LOOKS));
  repeat("directory", { first: 30 * MINUTE, pause: 360 * MINUTE }, () => sweepDirectory(clock()));
}

/** What is over in the directory: counts, mails, sign-ups, shops whose opening was cut off. */
async function sweepDirectory(now: Date): Promise<void> {
  await sweepLimits(now);
  await sweepMails(now);
  await sweepSignUps(now);
  await sweepUnfinished(now, (database, cause) =>
    log().error({ err: cause, database }, "What is left of a shop is cleared away later."),
  );
  await sweepExports(now);
}

/** With many shops a round takes long: rounds of one work then take a tenth of the time, not all of it. */
const REST = 9;

function repeat(name: string, times: { first: number; pause: number }, round: () => Promise<unknown>): void {
  const go = async () => {
    const began = performance.now();
    try {
      await round();
    } catch (cause) {
      log().error({ err: cause, work: name }, "A round failed.");
    }
    wait(Math.max(times.pause, REST * (performance.now() - began)));
  };
  const wait = (ms: number) => setTimeout(go, ms).unref();
  wait(times.first);
}
