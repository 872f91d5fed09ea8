import { type DirectoryTx, directory } from "@/lib/db/directory";
import { demandOne } from "@/lib/db/guard";
import { readCode } from "@/lib/domain/access/codes";
import { Refusal } from "@/lib/domain/refusal";
import { makeRecoveryCodes, recoveryCodesLeft, takeRecoveryCode } from "./recoveryCodes";
import type { Sealer } from "./sealer";
import { clockIsBehind, newTotpSecret, stepOfCode, totpAddress } from "./totp";

const OFFER_MS = 3_600_000;

/** A second factor as its person sees it. */
export interface FactorState {
  readonly since: Date | null;
  readonly recoveryCodesLeft: number;
  /** Shown to be set up, until a first code is right. */
  readonly offered: { readonly secret: string; readonly address: string } | null;
}

export async function factorState(
  personId: string,
  email: string,
  sealer: Sealer,
  now: Date,
): Promise<FactorState> {
  const found = await directory().read.secondFactor.findUnique({ where: { personId } });
  const fresh = found?.offeredAt && now.getTime() - found.offeredAt.getTime() < OFFER_MS;
  const secret = fresh && found.offered ? sealer.open(found.offered, personId) : null;
  return {
    since: found?.since ?? null,
    recoveryCodesLeft: found?.since ? await recoveryCodesLeft(personId) : 0,
    offered: secret ? { secret, address: totpAddress(secret, email) } : null,
  };
}

export async function hasFactor(personId: string): Promise<boolean> {
  const found = await directory().read.secondFactor.findUnique({
    where: { personId },
    select: { since: true },
  });
  return Boolean(found?.since);
}

/** Offers a new secret. One that counts goes on counting until a code of the new one was right. */
export async function offerFactor(personId: string, sealer: Sealer, now: Date): Promise<void> {
  const offer = { offered: sealer.seal(newTotpSecret(), personId), offeredAt: now };
  await directory().write((tx) =>
    tx.secondFactor.upsert({
      where: { personId },
      create: { personId, ...offer },
      update: offer,
      select: { personId: true },
    }),
  );
}

/** Turns the offered secret on by its first right code. Answers ten recovery codes, to be shown once. */
export async function confirmFactor(
  personId: string,
  typed: string,
  sealer: Sealer,
  now: Date,
): Promise<string[]> {
  const found = await directory().read.secondFactor.findUnique({ where: { personId } });
  const stale = !found?.offeredAt || now.getTime() - found.offeredAt.getTime() >= OFFER_MS;
  const secret = found?.offered && !stale ? sealer.open(found.offered, personId) : null;
  if (!found || !secret)
    throw new Refusal("This set-up is an hour old, or was begun anew. Nothing was changed.", "Begin again.");
  const read = readCode(typed);
  const step = read?.kind === "app" ? await stepOfCode(secret, read.code, 0, now) : null;
  if (step === null) throw wrongCode();
  return directory().write(async (tx) => {
    await demandOne(
      tx.secondFactor.updateMany({
        where: { personId, offered: found.offered },
        data: { secret: found.offered, since: now, lastStep: step, offered: null, offeredAt: null },
      }),
      () => new Refusal("This set-up was finished or begun anew meanwhile.", "Load the page again."),
    );
    await tx.securityEvent.create({ data: { at: now, act: "turned on the second factor", personId } });
    return makeRecoveryCodes(tx, personId, now);
  });
}

/** Takes a code of a person's second factor, or a recovery code: each counts once. Refuses any other. */
export async function takeCode(personId: string, typed: string, sealer: Sealer, now: Date): Promise<void> {
  const found = await directory().read.secondFactor.findUnique({ where: { personId } });
  const read = readCode(typed);
  if (!found?.secret || !read) throw wrongCode();
  if (read.kind === "recovery") return takeRecovery(personId, read.code, now);
  const secret = sealer.open(found.secret, personId);
  if (!secret)
    throw new Refusal(
      "The secret of this server has changed, so codes of your app cannot be checked any more.",
      "Use a recovery code, then set the second factor up anew. Without one, ask whoever runs this server.",
    );
  if (clockIsBehind(found.lastStep, now))
    throw new Refusal(
      "The clock of this server was set back, so codes of your app do not count for now.",
      "Use a recovery code, and tell whoever runs this server.",
    );
  const step = await stepOfCode(secret, read.code, found.lastStep, now);
  if (step === null) throw wrongCode();
  await demandOne(
    directory().write((tx) =>
      tx.secondFactor.updateMany({
        where: { personId, secret: found.secret, lastStep: { lt: step } },
        data: { lastStep: step },
      }),
    ),
    () => wrongCode(),
  );
}

async function takeRecovery(personId: string, code: string, now: Date): Promise<void> {
  await directory().write(async (tx) => {
    if (!(await takeRecoveryCode(tx, personId, code, now))) throw wrongCode();
    await tx.securityEvent.create({ data: { at: now, act: "used a recovery code", personId } });
  });
}

/** Ten new recovery codes; those before count no more. */
export async function renewRecoveryCodes(personId: string, now: Date): Promise<string[]> {
  return directory().write(async (tx) => {
    await demandOn(tx, personId);
    await tx.securityEvent.create({ data: { at: now, act: "made new recovery codes", personId } });
    return makeRecoveryCodes(tx, personId, now);
  });
}

/** Turns the second factor off, recovery codes and all. */
export async function dropFactor(personId: string, now: Date, by = ""): Promise<void> {
  await directory().write(async (tx) => {
    await demandOn(tx, personId);
    await tx.secondFactor.deleteMany({ where: { personId } });
    await tx.recoveryCode.deleteMany({ where: { personId } });
    await tx.securityEvent.create({
      data: { at: now, act: "turned off the second factor", personId, detail: by },
    });
  });
}

async function demandOn(tx: DirectoryTx, personId: string): Promise<void> {
  const on = await tx.secondFactor.findFirst({
    where: { personId, since: { not: null } },
    select: { personId: true },
  });
  if (!on) throw new Refusal("You have no second factor.", "Load the page again.");
}

function wrongCode(): Refusal {
  return new Refusal(
    "That code does not count.",
    "Wait for the next one your app shows, since each counts once, or use a recovery code.",
    { code: "Does not count." },
  );
}
