import { makeReset } from "@/lib/data/people/account";
import { dropFactor } from "@/lib/data/people/secondFactor";
import { directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";
import { publicUrl } from "@/lib/gate/origin";
import { say } from "@/lib/log/say";
import { command } from "./command";

// npm run reset-link -- name@example.net [--second-factor-off]
const given = process.argv.slice(2);
const email = (given.find((one) => !one.startsWith("--")) ?? "").trim().toLowerCase();
const now = new Date();

async function secondFactorOff(): Promise<string> {
  const person = await directory().read.person.findUniqueOrThrow({ where: { email }, select: { id: true } });
  try {
    await dropFactor(person.id, now, "by whoever runs the server");
    return "The second factor is off.";
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return "There was no second factor.";
  }
}

await command(async () => {
  const token = email ? await makeReset(email, now) : null;
  if (token && given.includes("--second-factor-off")) say(await secondFactorOff());
  say(
    token
      ? `Within two hours, the new password can be set here:\n${publicUrl().origin}/new-password/${token}`
      : "Nobody has that address. Use: npm run reset-link -- name@example.net",
  );
  return token ? 0 : 1;
});
