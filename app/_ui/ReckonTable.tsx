import type { ReactNode } from "react";
import { cx } from "./cx";

const HEAD = "border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start";

/** A figure's cell in a ReckonTable. */
export const RECKON_CELL = "py-1.5 pl-3 text-end font-mono";

/** The frame of a small table of worked-out figures: the first column names the row, the rest are figures. */
export function ReckonTable({
  head,
  children,
  className,
}: {
  head: readonly string[];
  children: ReactNode;
  className?: string | undefined;
}) {
  return (
    <div className={cx("overflow-x-auto", className)}>
      <table className="w-full border-collapse text-[15px]">
        <thead>
          <tr className="text-[13px] text-soft">
            {head.map((name) => (
              <th key={name} scope="col" className={HEAD}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
