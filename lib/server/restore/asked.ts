import { resolve } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import type { Staged } from "./stage";

const USE = "Use: npm run restore -- <folder of the copy> [--shop <slug>] [--skip-damaged] [--with-problems]";
const FLAGS = new Set(["--shop", "--skip-damaged", "--with-problems"]);

export interface Asked {
  readonly copy: string;
  readonly slug: string | null;
  readonly skipDamaged: boolean;
  readonly withProblems: boolean;
}

/** What the command was asked to do; null where it names no copy. */
export function asked(words: readonly string[]): Asked | null {
  const shopAt = words.indexOf("--shop");
  const slug = shopAt === -1 ? null : (words[shopAt + 1] ?? "");
  const rest = words.filter((_, at) => shopAt === -1 || at !== shopAt + 1);
  const strange = rest.find((word) => word.startsWith("--") && !FLAGS.has(word));
  const [copy, second] = rest.filter((word) => !word.startsWith("--"));
  if (strange || second || slug === "" || slug?.startsWith("--"))
    throw new Refusal(`This cannot be understood: ${strange ?? second ?? "--shop"}.`, USE);
  if (!copy) return null;
  return {
    copy: resolve(copy),
    slug,
    skipDamaged: words.includes("--skip-damaged"),
    withProblems: words.includes("--with-problems"),
  };
}

/** A copy must be named, where no restore is to be carried to its end. */
export function demandAsked(wanted: Asked | null): Asked {
  if (wanted) return wanted;
  throw new Refusal("No copy was named.", USE);
}

/** Refuses to put back what is damaged, or does not add up, unless that was asked for. */
export function demandFit(staged: readonly Staged[], { skipDamaged, withProblems }: Asked): void {
  const damaged = staged.filter((shop) => shop.damage !== null);
  if (damaged.length && (!skipDamaged || damaged.length === staged.length))
    throw new Refusal(
      `${damaged.map((shop) => shop.slug).join(", ")} cannot be put back from this copy.`,
      "Take an earlier copy, or leave what is damaged as it stands with --skip-damaged. Nothing was changed.",
    );
  const wrong = staged.filter((shop) => shop.problems.length > 0);
  if (wrong.length && !withProblems)
    throw new Refusal(
      `The books of ${wrong.map((shop) => shop.slug).join(", ")} do not add up in this copy.`,
      "Take an earlier copy, or put it back all the same with --with-problems. Nothing was changed.",
    );
}
