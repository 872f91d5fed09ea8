"use client";
import type { UseComboboxReturnValue } from "downshift";
import type { Pick } from "@/lib/schemas/picks";
import { cx } from "./cx";
import type { Rows } from "./useRows";
import { words } from "./words";

export interface PickListProps {
  id: string;
  box: UseComboboxReturnValue<Pick>;
  found: Rows & { readonly looking: boolean };
}

/** The rows under a field that is typed into. They stand in the page, so that nothing lies over a phone's keys. */
export function PickList({ id, box, found }: PickListProps) {
  const { isOpen, highlightedIndex } = box;
  return (
    <>
      <ul
        {...box.getMenuProps()}
        className={cx(
          "max-h-80 overflow-y-auto rounded-b-[3px] border-edge border-x border-b bg-sheet",
          !(isOpen && found.rows.length > 0) && "hidden",
        )}
      >
        {isOpen &&
          found.rows.map((row, index) => (
            <li
              key={row.value}
              {...box.getItemProps({ item: row, index })}
              className={cx(
                "flex min-h-11 flex-wrap content-center items-baseline gap-x-3 border-hair border-b px-3 py-1.5 pointer-coarse:min-h-12",
                highlightedIndex === index && "bg-wash",
              )}
            >
              <span>{row.label}</span>
              <span className="text-[14px] text-soft">{row.sub}</span>
            </li>
          ))}
      </ul>
      <p id={`${id}-found`} role="status" className="text-[14px] text-soft">
        {isOpen ? saidOf(found) : ""}
      </p>
    </>
  );
}

function saidOf(found: PickListProps["found"]): string {
  if (found.looking) return words.looking;
  if (found.failed) return words.noAnswer;
  if (found.text === "") return "";
  if (found.rows.length === 0) return words.noneFound;
  return found.more ? words.moreFound : "";
}
