import type { StatementEntry } from "@/lib/domain/chasing/statement";
import type { AccountWords } from "@/lib/words/account";
import type { PaperWords } from "@/lib/words/papers";

/** What a line says: what it is, how the money moved, and its reference. */
export function entryText(
  { kind, numbers, method, reference }: StatementEntry,
  words: AccountWords,
  papers: PaperWords,
): string {
  const how = papers.methods[method] ?? method;
  return [words.kinds[kind](numbers.join(", ")), how, reference].filter(Boolean).join(", ");
}
