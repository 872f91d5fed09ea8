import type { ReactNode } from "react";
import { Link } from "./Link";

/** Says on every page of a sample shop that it is one. */
export function SampleMark({ remove, children }: { remove?: string | undefined; children: ReactNode }) {
  return (
    <p className="mb-4 flex flex-wrap items-center gap-x-4 border-2 border-brass border-dashed bg-brass-wash px-3 py-1.5 text-[15px]">
      <strong>{children}</strong>
      {remove && (
        <Link
          href={remove}
          className="flex min-h-8 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12 print:hidden"
        >
          Remove it
        </Link>
      )}
    </p>
  );
}
