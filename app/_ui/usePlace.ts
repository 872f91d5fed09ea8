"use client";
import { usePathname } from "next/navigation";

export interface Place {
  readonly key: string;
  readonly name: string;
  readonly href: string;
}

/** Which place an address lies in: the one it begins with. The first place is the shop's own address, which all begin with. */
function placeOf([first, ...others]: readonly Place[], path: string): string | undefined {
  if (path === first?.href) return first.key;
  return others.find(({ href }) => path === href || path.startsWith(`${href}/`))?.key;
}

export function usePlace(places: readonly Place[], current: string | undefined): string | undefined {
  const path = usePathname();
  return current ?? placeOf(places, path);
}
