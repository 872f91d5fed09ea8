import { say } from "@/lib/log/say";
import { command } from "./command";
import { eachShop, type Round, type ShopWork } from "./eachShop";
import { lookAgain } from "./lookAgain";
import { sendToPeople } from "./peopleMail";
import { LETTERS, LOOKED_AT, MAIL, PACKAGES, PHOTOS, QUOTES } from "./work";

/** As many shops at most are looked at that were not for a day. */
const LOOKS = 1_000;

/** One round of each work, for a schedule of the machine's own: npx tsx lib/server/roundOnce.ts. Set PUBLIC_URL as for the server. */
await command(async () => {
  const clock = () => new Date();
  const told: { work: ShopWork<unknown>; answer: unknown }[] = [];
  const unseen = await lookAgain(LOOKED_AT, clock, LOOKS, (work, answer) => told.push({ work, answer }));
  const quotes = await eachShop(QUOTES, clock);
  const letters = await eachShop(LETTERS, clock);
  // Now, so that reminders and letters go too.
  const mail = await eachShop(MAIL, clock);
  const photos = await eachShop(PHOTOS, clock);
  const packages = await eachShop(PACKAGES, clock);
  /** Over what the round of a work did, and the look at shops before it. */
  const sum = <T>(work: ShopWork<T>, round: Round<T> | null, of: (row: T) => number) =>
    [...(round?.done ?? []), ...told.flatMap((one) => (one.work === work ? [one.answer as T] : []))].reduce(
      (total, row) => total + of(row),
      0,
    );
  say(
    [
      `${quotes?.shops ?? 0} shops had quotes to look at, ${unseen} were looked at for the day:`,
      `${sum(QUOTES, quotes, (row) => row.expired)} quotes ran out,`,
      `${sum(QUOTES, quotes, (row) => row.reminded)} reminders written,`,
      `${sum(LETTERS, letters, (row) => row.dayBefore + row.payments + row.howRuns)} letters written,`,
      `${sum(MAIL, mail, (row) => row.sent)} mails sent and ${sum(MAIL, mail, (row) => row.failed)} not,`,
      `${sum(PHOTOS, photos, (row) => row.files)} files of photos swept.`,
    ].join(" "),
  );
  await sendToPeople();
  return [quotes, letters, mail, photos, packages].every((round) => round?.failed === 0) ? 0 : 1;
});
