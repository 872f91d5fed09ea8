import type { Procedure } from "@/lib/domain/procedures/procedure";
import { ProcedureBody } from "./ProcedureBody";

/** How what is read here is measured, each procedure one tap away and in place. Nothing where there is none. */
export function ProcedureFolds({ procedures }: { procedures: readonly Procedure[] }) {
  return procedures.map((one) => (
    <details key={one.id} className="my-1 print:hidden">
      <summary className="inline-flex min-h-8 items-center font-semibold text-brass underline underline-offset-4 pointer-coarse:min-h-12">
        How to measure: {one.name}
      </summary>
      <ProcedureBody procedure={one} />
    </details>
  ));
}
