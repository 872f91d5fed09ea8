import type { ReactNode } from "react";
import { cx } from "./cx";

export interface SectionProps {
  title: ReactNode;
  children: ReactNode;
  /** Stands at the end of the rule: a link, a small button. */
  aside?: ReactNode;
  level?: 2 | 3 | undefined;
  className?: string | undefined;
  /** Where a link on the same page leads. */
  id?: string | undefined;
}

/** A part of a page: its label with the rule running on, then what it holds. */
export function Section({ title, children, aside, level = 2, className, id }: SectionProps) {
  const Heading = level === 2 ? "h2" : "h3";
  return (
    <section id={id} className={cx("mb-7 min-w-0", className)}>
      <div className="mb-2.5 flex items-center gap-2.5 after:order-1 after:h-px after:flex-1 after:bg-rule">
        <Heading className="font-semibold text-[13px] text-soft">{title}</Heading>
        {aside && <div className="order-2 text-[14px]">{aside}</div>}
      </div>
      {children}
    </section>
  );
}
