"use client";
import type { ReactNode } from "react";
import { cx } from "./cx";
import { KeyHelp } from "./KeyHelp";
import { Link } from "./Link";
import { MenuLinks } from "./MenuLinks";
import { MenuSheet } from "./MenuSheet";
import { ThemeChoice } from "./ThemeChoice";
import type { MenuItem } from "./useMenuItem";
import { words } from "./words";

export interface ShellProps {
  shop: { readonly slug: string; readonly name: string };
  menu: readonly MenuItem[];
  /** Key of the item we are in; without it the address tells. */
  current?: string | undefined;
  /** Who is here: name, role, the way out. */
  person?: ReactNode;
  /** Address of the search over everything; `/s/<slug>/find` by default. */
  find?: string | undefined;
  /** Said above every page: that the shop is a sample. */
  mark?: ReactNode;
  children: ReactNode;
}

/** The frame of a shop's pages: menu at the left, or under the thumb on a phone. */
export function Shell({ shop, menu, current, person, find, mark, children }: ShellProps) {
  const findHref = find ?? `/s/${shop.slug}/find`;
  const finder = (className: string) => (
    <Link
      href={findHref}
      data-find-link
      className={cx("text-soft text-[14px] no-underline hover:text-ink", className)}
    >
      <kbd className="font-mono">/</kbd> {words.find}
    </Link>
  );
  return (
    <div className="min-h-dvh rail:grid rail:grid-cols-[148px_minmax(0,1fr)] print:block">
      <a
        href="#page"
        className="sr-only focus:not-sr-only focus:fixed focus:top-2 focus:left-2 focus:z-50 focus:bg-sheet focus:p-3"
      >
        {words.skip}
      </a>
      <header className="flex items-center justify-between gap-3 border-rule border-b px-4 py-2 rail:sticky rail:top-0 rail:h-dvh rail:flex-col rail:items-stretch rail:justify-start rail:overflow-y-auto rail:border-r rail:border-b-0 rail:px-0 rail:py-[22px] print:hidden">
        <Link
          href={`/s/${shop.slug}`}
          className="flex min-h-8 min-w-0 items-center font-bold text-[15px] leading-[1.2] no-underline rail:px-[22px] pointer-coarse:min-h-12"
        >
          {shop.name}
        </Link>
        <nav aria-label={words.menuItems} className="hidden rail:block">
          <MenuLinks menu={menu} current={current} />
        </nav>
        {finder("hidden rail:block px-[22px] py-3 pointer-coarse:py-4")}
        <div className="flex items-center gap-2 text-[14px] text-soft rail:mt-auto rail:flex-col rail:items-start rail:gap-4 rail:px-[22px]">
          <div className="hidden rail:block">
            <KeyHelp />
          </div>
          <div className="hidden rail:block">
            <ThemeChoice />
          </div>
          {person && <div className="hidden rail:block">{person}</div>}
        </div>
      </header>
      <main
        id="page"
        tabIndex={-1}
        className="min-w-0 px-4 pt-4 outline-none rail:px-[30px] rail:pt-[22px] rail:pb-24 print:p-0"
      >
        <div className="mx-auto max-w-[1180px]">
          {mark}
          {children}
        </div>
      </main>
      <MenuSheet menu={menu} current={current} finder={finder("block py-3")} foot={person} />
    </div>
  );
}
