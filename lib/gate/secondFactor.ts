import { type Sealer, sealerOf } from "@/lib/data/people/sealer";
import { hasFactor, takeCode } from "@/lib/data/people/secondFactor";
import { TRY_RULES } from "@/lib/domain/access/tries";
import { Refusal } from "@/lib/domain/refusal";
import { CODE_WANTED } from "@/lib/schemas/codeWanted";
import { note } from "./events";
import { authSecret } from "./secret";
import { tried } from "./tries";

/** Opens and seals the secrets of second factors, with a key made from the server's secret. */
export function factorSealer(): Sealer {
  return sealerOf(authSecret(), "second factor");
}

/** Takes a code of a person's second factor under the limits: failures slow the next try down. */
export async function takeCodeTried(personId: string, code: string, now: Date): Promise<void> {
  const counted = [{ what: `second factor ${personId}`, rule: TRY_RULES.secondFactor, forgiven: true }];
  await tried(counted, now, async () => {
    try {
      await takeCode(personId, code, factorSealer(), now);
    } catch (cause) {
      if (cause instanceof Refusal) await note("gave a wrong code", personId, null, "", now);
      throw cause;
    }
  });
}

/**
 * Lets through a person whose password was right: at once where they have no second factor, else with a right code.
 * Asked for only here, so that nobody learns of a second factor before the password is right.
 */
export async function demandSecondFactor(personId: string, given: unknown, now: Date): Promise<void> {
  if (!(await hasFactor(personId))) return;
  const code = String(given ?? "").trim();
  if (code === "") throw new Refusal(CODE_WANTED);
  await takeCodeTried(personId, code, now);
}
