import { log } from "@/lib/log/log";
import { mailer } from "@/lib/outside/mail";
import { eachShop, type ShopWork } from "./eachShop";
import { MAIL, PHOTOS, QUOTES } from "./work";

const SECOND = 1_000;
const MINUTE = 60 * SECOND;

/** Rounds for as long as the server runs, of each work one at a time. */
export function startRounds(): void {
  if (mailer()) repeat(MAIL, { first: 5 * SECOND, pause: 20 * SECOND });
  repeat(QUOTES, { first: MINUTE, pause: 15 * MINUTE });
  repeat(PHOTOS, { first: 20 * MINUTE, pause: 360 * MINUTE });
}

/** With many shops a round takes long: rounds of one work then take a tenth of the time, not all of it. */
const REST = 9;

function repeat<T>(work: ShopWork<T>, times: { first: number; pause: number }): void {
  const go = async () => {
    const began = performance.now();
    try {
      await eachShop(work, () => new Date());
    } catch (cause) {
      log().error({ err: cause, work: work.name }, "The round through the shops failed.");
    }
    wait(Math.max(times.pause, REST * (performance.now() - began)));
  };
  const wait = (ms: number) => setTimeout(go, ms).unref();
  wait(times.first);
}
