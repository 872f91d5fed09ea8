import { notFound } from "next/navigation";
import { idIn } from "@/lib/schemas/ids";

/** The id of a record in a path. Text that is no id is a record that is not there. */
export function pathId(text: string): number {
  return idIn(text) ?? notFound();
}

/** An id that an address asks for behind its path; undefined where it names none that there could be. */
export function askedId(text: unknown): number | undefined {
  return idIn(text) ?? undefined;
}
