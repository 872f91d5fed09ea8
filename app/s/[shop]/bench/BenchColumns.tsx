import type { ReactNode } from "react";
import { Refused } from "@/app/_ui/Refused";
import type { Trouble } from "./workBench";

/** Inputs at the left, the answer at the right; on a phone the answer follows the inputs. */
export function BenchColumns({
  form,
  trouble,
  children,
}: {
  form: ReactNode;
  trouble: Trouble | null;
  children: ReactNode;
}) {
  return (
    <div className="grid gap-x-10 gap-y-6 lg:grid-cols-[minmax(0,300px)_minmax(0,1fr)] xl:grid-cols-[minmax(0,420px)_minmax(0,1fr)] print:block">
      <div className="min-w-0">{form}</div>
      <div id="answer" className="min-w-0 scroll-mt-4">
        {trouble && <Refused message={trouble.message} remedy={trouble.remedy} />}
        {children}
      </div>
    </div>
  );
}
