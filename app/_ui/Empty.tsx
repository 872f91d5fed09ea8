import type { ReactNode } from "react";

/** An empty place: says so, and says the next act. */
export function Empty({ title, text, action }: { title: ReactNode; text?: ReactNode; action?: ReactNode }) {
  return (
    <div className="my-3 border border-rule border-dashed px-5 py-6">
      <p className="font-semibold">{title}</p>
      {text && <p className="mt-1 max-w-prose text-soft">{text}</p>}
      {action && <div className="mt-4 flex flex-wrap gap-2.5">{action}</div>}
    </div>
  );
}
