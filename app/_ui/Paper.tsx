import type { ReactNode } from "react";

/** A document to be printed: its size of paper is chosen by the shop. */
export function Paper({ size, children }: { size: "a4" | "letter" | "label62"; children: ReactNode }) {
  return <article className={`paper-${size} max-w-[50rem] print:max-w-none`}>{children}</article>;
}
