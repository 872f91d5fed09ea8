import { ATTACKS } from "./attacks";
import { signIn } from "./site";

/** The other process: asks for one attack over and over, for so many seconds. Args: name, base, password, seconds. */
const [name = "", base = "", password = "", seconds = "0"] = process.argv.slice(2);
const attack = ATTACKS[name];
if (!attack) throw new Error(`There is no attack "${name}".`);
const site = await signIn(base, "fjellrevOwner", password);
const until = performance.now() + Number(seconds) * 1000;
const counts: Record<string, number> = {};
let turn = 0;
await Promise.all(
  Array.from({ length: attack.parallel }, async () => {
    while (performance.now() < until) {
      const told = await attack.once(site, turn++).then(
        ({ status }) => String(status),
        (cause: Error) => cause.name,
      );
      counts[told] = (counts[told] ?? 0) + 1;
      // Whoever is refused at once asks again soon, not at once.
      if (told !== "200") await new Promise((resume) => setTimeout(resume, 100));
    }
  }),
);
process.send?.(counts);
process.disconnect?.();
