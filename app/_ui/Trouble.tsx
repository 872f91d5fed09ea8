import type { ReactNode } from "react";

export interface TroubleProps {
  title: string;
  /** What happened, what is safe, what to do: a paragraph each. */
  children: ReactNode;
  /** The number to tell. */
  id?: string | undefined;
  acts: ReactNode;
}

/** A whole page that says something went wrong. */
export function Trouble({ title, children, id, acts }: TroubleProps) {
  return (
    <div className="mx-auto max-w-2xl px-4 py-12">
      <h1 className="mb-4 border-ink border-b-2 pb-2.5 font-bold text-[26px]">{title}</h1>
      <div className="grid gap-3">{children}</div>
      {id && (
        <p className="mt-4 text-soft">
          Number to tell: <code className="font-mono text-ink">{id}</code>
        </p>
      )}
      <div className="mt-6 flex flex-wrap gap-2.5">{acts}</div>
    </div>
  );
}
