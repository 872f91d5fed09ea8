import type { ReactNode } from "react";

/** Something that can hurt a person, a part or the engine, said before the work. */
export function Caution({ title, children }: { title: ReactNode; children?: ReactNode }) {
  return (
    <div role="note" className="keep my-3 border-oxide border-l-4 bg-oxide-wash px-3.5 py-2.5 text-[15px]">
      <strong>{title}</strong> {children}
    </div>
  );
}
