"use client";
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
    <ul className={sheet ? "menu-sheet grid grid-cols-2" : "mt-2"}>
      {menu.map(({ key, name, href }) => (
        <li key={key}>
          <Link href={href} aria-current={key === here ? "page" : undefined} className="menu-item">
            {name}
          </Link>
        </li>
      ))}
    </ul>
  );
}
