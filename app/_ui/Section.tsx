"use client";
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
    <section id={id} className={cx("section", className)}>
      <div className="section-head">
        <Heading>{title}</Heading>
        {aside && <div>{aside}</div>}
      </div>
      {children}
    </section>
  );
}
