import { createHash, randomInt } from "node:crypto";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { RECOVERY_ALPHABET, RECOVERY_COUNT, RECOVERY_LETTERS } from "@/lib/domain/access/codes";

const hashOf = (personId: string, code: string) =>
  createHash("sha256").update(`${personId}:${code}`).digest("hex");

function newCode(): string {
  return Array.from({ length: RECOVERY_LETTERS }, () => RECOVERY_ALPHABET[randomInt(32)]).join("");
}

/** Ten new codes in place of all that there were. Answers them; they are kept nowhere. */
export async function makeRecoveryCodes(tx: DirectoryTx, personId: string, now: Date): Promise<string[]> {
  const codes = Array.from({ length: RECOVERY_COUNT }, newCode);
  await tx.recoveryCode.deleteMany({ where: { personId } });
  for (const code of codes)
    await tx.recoveryCode.create({
      data: { personId, codeHash: hashOf(personId, code), madeAt: now },
      select: { id: true },
    });
  return codes;
}

/** Takes a recovery code, once; false where it is none of this person's or was used. */
export async function takeRecoveryCode(
  tx: DirectoryTx,
  personId: string,
  code: string,
  now: Date,
): Promise<boolean> {
  const { count } = await tx.recoveryCode.updateMany({
    where: { personId, codeHash: hashOf(personId, code), usedAt: null },
    data: { usedAt: now },
  });
  return count === 1;
}

export async function recoveryCodesLeft(personId: string): Promise<number> {
  const left = await directory().read.recoveryCode.findMany({
    where: { personId, usedAt: null },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return left.length;
}
