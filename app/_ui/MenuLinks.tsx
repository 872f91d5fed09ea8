"use client";
import { cx } from "./cx";
import { Link } from "./Link";
import { type MenuItem, useMenuItem } from "./useMenuItem";

export interface MenuLinksProps {
  menu: readonly MenuItem[];
  current?: string | undefined;
  /** In the sheet on a phone: two columns, taller. */
  sheet?: boolean | undefined;
}

export function MenuLinks({ menu, current, sheet }: MenuLinksProps) {
  const here = useMenuItem(menu, current);
  return (
    <ul className={sheet ? "grid grid-cols-2" : "mt-2"}>
      {menu.map(({ key, name, href }) => (
        <li key={key}>
          <Link
            href={href}
            aria-current={key === here ? "page" : undefined}
            className={cx(
              "flex items-center no-underline hover:underline",
              sheet
                ? "min-h-12 border-l-4 px-3"
                : "min-h-[33.7px] border-r-[3px] px-[22px] text-[15px] pointer-coarse:min-h-12",
              key === here ? "border-brass-fill font-bold" : "border-transparent",
            )}
          >
            {name}
          </Link>
        </li>
      ))}
    </ul>
  );
}
