import { Refusal } from "@/lib/domain/refusal";

/** What comes back from a thread: a class is lost on the way, so a Refusal crosses as its words. */
export type Answer<T> =
  | { readonly value: T }
  | {
      readonly refused: {
        readonly message: string;
        readonly remedy: string;
        readonly fields: Readonly<Record<string, string>>;
        readonly kind: Refusal["kind"];
      };
    };

/** Runs a task in its thread and packs what it answers or refuses; a bug is thrown as it is. */
export async function packed<T>(run: () => T | Promise<T>): Promise<Answer<T>> {
  try {
    return { value: await run() };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const { message, remedy, fields, kind } = cause;
    return { refused: { message, remedy, fields: { ...fields }, kind } };
  }
}

/** The value of an answer; throws the Refusal that it carries. */
export function unpacked<T>(answer: Answer<T>): T {
  if ("value" in answer) return answer.value;
  const { message, remedy, fields, kind } = answer.refused;
  throw new Refusal(message, remedy, fields, kind);
}
