import type { Chance } from "../work/chance";

/** Names of people nobody has met, each once: a first name with a family name. */
export function names(firsts: readonly string[], lasts: readonly string[], count: number): string[] {
  if (count > firsts.length * lasts.length) throw new Error("There are not so many names.");
  return Array.from(
    { length: count },
    (_, at) =>
      `${firsts[at % firsts.length]} ${lasts[(at * 7 + Math.floor(at / firsts.length)) % lasts.length]}`,
  );
}

/** Deals a list out again and again, so that each comes about as often as it stands in it. */
export function dealt<T>(list: readonly T[], count: number, chance: Chance): T[] {
  return Array.from({ length: Math.ceil(count / list.length) }, () => shuffled(list, chance))
    .flat()
    .slice(0, count);
}

function shuffled<T>(list: readonly T[], chance: Chance): T[] {
  const rest = [...list];
  return list.map(() => rest.splice(chance.between(0, rest.length - 1), 1)[0] as T);
}
