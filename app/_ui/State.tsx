"use client";
import type { ReactNode } from "react";
import { cx } from "./cx";
import { Shape, type ShapeName, type Tone, toneText } from "./Shape";

export interface StateProps {
  shape: ShapeName;
  tone?: Tone | undefined;
  children: ReactNode;
  className?: string | undefined;
}

/** A state: its shape, then its word. */
export function State({ shape, tone = "soft", children, className }: StateProps) {
  return (
    <span className={cx("state", toneText(tone), className)}>
      <Shape shape={shape} tone={tone} />
      <span>{children}</span>
    </span>
  );
}
