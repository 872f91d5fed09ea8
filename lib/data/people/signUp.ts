import { randomUUID } from "node:crypto";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";
import { demandGoodPassword, hashPassword } from "./passwords";

export interface NewPerson {
  readonly name: string;
  readonly email: string;
  readonly password: string;
}

/** A person who is not in the directory yet, the password hashed. */
export interface ReadyPerson {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly passwordHash: string;
}

/** Checks a new person's password and hashes it; `about` is what else a stranger may know. Writes nothing. */
export async function readyPerson(input: NewPerson, about: readonly string[] = []): Promise<ReadyPerson> {
  demandGoodPassword(input.password, [input.email, input.name, ...about]);
  const passwordHash = await hashPassword(input.password);
  return { id: randomUUID(), name: input.name, email: input.email, passwordHash };
}

/** Refuses an address that has a person. */
export async function demandFree(reader: Pick<DirectoryTx, "person">, email: string): Promise<void> {
  if (await reader.person.findUnique({ where: { email }, select: { id: true } }))
    throw new Refusal(
      "There is a person with this address already.",
      "Sign in instead, or use another address.",
      { email: "Taken." },
    );
}

/** Puts a person into the directory, in the transaction of what else is to come true with it. */
export async function addPerson(tx: DirectoryTx, person: ReadyPerson, now: Date): Promise<void> {
  await demandFree(tx, person.email);
  await tx.person.create({ data: { ...person, createdAt: now }, select: { id: true } });
  await tx.securityEvent.create({ data: { at: now, act: "signed up", personId: person.id } });
}

/** Makes a person by itself: one who joins a shop. Refuses a poor password or a taken address. */
export async function createPerson(input: NewPerson, now: Date): Promise<string> {
  const person = await readyPerson(input);
  await directory().write((tx) => addPerson(tx, person, now));
  return person.id;
}
