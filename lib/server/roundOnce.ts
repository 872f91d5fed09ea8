import { say } from "@/lib/log/say";
import { command } from "./command";
import { eachShop } from "./eachShop";
import { lookAgain } from "./lookAgain";
import { sendToPeople } from "./peopleMail";
import { LETTERS, LOOKED_AT, MAIL, PACKAGES, PHOTOS, QUOTES } from "./work";

/** As many shops at most are looked at that were not for a day. */
const LOOKS = 1_000;

/** One round of each work, for a schedule of the machine's own: npx tsx lib/server/roundOnce.ts. Set PUBLIC_URL as for the server. */
await command(async () => {
  const clock = () => new Date();
  const unseen = await lookAgain(LOOKED_AT, clock, LOOKS);
  const quotes = await eachShop(QUOTES, clock);
  const letters = await eachShop(LETTERS, clock);
  // Now, so that reminders and letters go too.
  const mail = await eachShop(MAIL, clock);
  const photos = await eachShop(PHOTOS, clock);
  const packages = await eachShop(PACKAGES, clock);
  const sum = <T>(rows: readonly T[] | undefined, of: (row: T) => number) =>
    (rows ?? []).reduce((total, row) => total + of(row), 0);
  say(
    [
      `${quotes?.shops ?? 0} shops had quotes to look at, ${unseen} were looked at for the day:`,
      `${sum(quotes?.done, (row) => row.expired)} quotes ran out,`,
      `${sum(quotes?.done, (row) => row.reminded)} reminders written,`,
      `${sum(letters?.done, (row) => row.dayBefore + row.payments + row.howRuns)} letters written,`,
      `${sum(mail?.done, (row) => row.sent)} mails sent and ${sum(mail?.done, (row) => row.failed)} not,`,
      `${sum(photos?.done, (row) => row.files)} files of photos swept.`,
    ].join(" "),
  );
  await sendToPeople();
  return [quotes, letters, mail, photos, packages].every((round) => round?.failed === 0) ? 0 : 1;
});
