import { askReset } from "@/lib/data/people/account";
import { publicUrl } from "@/lib/gate/origin";
import { say } from "@/lib/log/say";
import { command } from "./command";

await command(async () => {
  const email = (process.argv[2] ?? "").trim().toLowerCase();
  const token = email ? await askReset(email, new Date()) : null;
  say(
    token
      ? `Within two hours, the new password can be set here:\n${publicUrl().origin}/new-password/${token}`
      : "Nobody has that address. Use: npm run reset-link -- name@example.net",
  );
  return token !== null;
});
