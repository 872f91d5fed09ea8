"use client";
import { usePathname } from "next/navigation";

export interface MenuItem {
  readonly key: string;
  readonly name: string;
  readonly href: string;
}

/** Which item an address lies in: the one it begins with. The first item is the shop's own address, which all begin with. */
function itemOf([first, ...others]: readonly MenuItem[], path: string): string | undefined {
  if (path === first?.href) return first.key;
  return others.find(({ href }) => path === href || path.startsWith(`${href}/`))?.key;
}

export function useMenuItem(menu: readonly MenuItem[], current: string | undefined): string | undefined {
  const path = usePathname();
  return current ?? itemOf(menu, path);
}
