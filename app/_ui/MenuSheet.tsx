"use client";
import { type MouseEvent, type ReactNode, useRef } from "react";
import { MenuLinks } from "./MenuLinks";
import { ThemeChoice } from "./ThemeChoice";
import { type MenuItem, useMenuItem } from "./useMenuItem";
import { words } from "./words";

export interface MenuSheetProps {
  menu: readonly MenuItem[];
  current?: string | undefined;
  finder: ReactNode;
  foot?: ReactNode;
}

/** The menu on a phone: a sheet that opens from the foot of the screen. Works without scripts. */
export function MenuSheet({ menu, current, finder, foot }: MenuSheetProps) {
  const box = useRef<HTMLDetailsElement>(null);
  const key = useMenuItem(menu, current);
  const here = menu.find((item) => item.key === key);
  const follow = (event: MouseEvent) => {
    if (event.target instanceof Element && event.target.closest("a") && box.current) box.current.open = false;
  };
  const onKeyDown = (event: { key: string }) => {
    if (event.key !== "Escape" || !box.current?.open) return;
    box.current.open = false;
    box.current.querySelector("summary")?.focus();
  };
  return (
    <details
      ref={box}
      onKeyDown={onKeyDown}
      className="group fixed inset-x-0 bottom-0 z-30 flex-col-reverse border-ink border-t bg-paper pb-[env(safe-area-inset-bottom)] rail:hidden print:hidden"
    >
      <summary className="flex min-h-14 items-center justify-between gap-4 px-4 font-semibold">
        <span className="flex items-center gap-3">
          <svg
            aria-hidden="true"
            viewBox="0 0 18 14"
            width="18"
            height="14"
            stroke="currentColor"
            strokeWidth="2"
          >
            <path d="M0 2h18M0 7h18M0 12h18" />
          </svg>
          {words.menu}
        </span>
        {here && <span className="font-normal text-soft">{here.name}</span>}
      </summary>
      {/* biome-ignore lint/a11y: only closes the sheet once a link inside was followed */}
      <div
        onClick={follow}
        className="max-h-[70dvh] overflow-y-auto border-rule border-t bg-paper px-1 pt-2 pb-3 text-base text-ink"
      >
        <nav aria-label={words.menuItems}>
          <MenuLinks menu={menu} current={current} sheet />
        </nav>
        <div className="flex flex-wrap items-center justify-between gap-x-6 border-hair border-t px-3 pt-1 text-soft">
          {finder}
          <ThemeChoice />
          {foot}
        </div>
      </div>
    </details>
  );
}
