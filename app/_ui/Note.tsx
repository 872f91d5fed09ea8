import type { ReactNode } from "react";

/** Something to know. */
export function Note({ title, children }: { title?: ReactNode; children?: ReactNode }) {
  return (
    <div
      role="note"
      className="keep my-3 border-brass-fill border-l-4 bg-brass-wash px-3.5 py-2.5 text-[15px]"
    >
      {title && <strong>{title}</strong>} {children}
    </div>
  );
}
