// A process in which people sign up, one after the other, until it is killed: node signUpUntilKilled.ts <name> [<halt>].
// It says each who was told that their shop is open, one JSON line each. With "unfilled" or "filled", the second one comes
// to a halt before or after the shop's database is filled, and says so.
import { readyPerson } from "@/lib/data/people/signUp";
import { prepareShop } from "@/lib/data/shop/prepare";
import { signUpWithShop } from "@/lib/gate/openShop";

const [name = "somebody", halt] = process.argv.slice(2);
const now = new Date("2026-11-25T00:30:00Z");

async function comeToAHalt(): Promise<void> {
  process.stdout.write(`${JSON.stringify({ halted: true })}\n`);
  // The timer keeps the process there.
  await new Promise((resume) => setTimeout(resume, 600_000));
}

for (let turn = 0; turn < 500; turn++) {
  const email = `${name}-${turn}@saltpan.example`;
  const person = await readyPerson({ name: "Maren Tolliver", email, password: "float and needle, seated" });
  await signUpWithShop(person, `Shop of ${name}`, now, async (shop) => {
    if (turn === 1 && halt === "unfilled") await comeToAHalt();
    await prepareShop(shop, { name: `Shop of ${name}`, country: "AU" });
    if (turn === 1 && halt === "filled") await comeToAHalt();
  });
  process.stdout.write(`${JSON.stringify({ signedUp: email })}\n`);
}
