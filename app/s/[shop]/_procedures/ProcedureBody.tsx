import { Caution } from "@/app/_ui/Caution";
import { LineDrawing } from "@/app/_ui/LineDrawing";
import { MAKER, type Procedure } from "@/lib/domain/procedures/procedure";

const ROWS = [
  ["Instrument", "instrument"],
  ["Tells apart", "resolution"],
  ["Readings", "readings"],
  ["What becomes of it", "kept"],
] as const;

/** A procedure whole: cautions first, then the drawing beside what to do. */
export function ProcedureBody({ procedure }: { procedure: Procedure }) {
  const cautions = procedure.cautions.filter((text) => text !== MAKER);
  return (
    <div className="max-w-[900px]">
      <Caution title="First.">
        {cautions.map((text) => (
          <span key={text} className="block">
            {text}
          </span>
        ))}
      </Caution>
      <div className="grid gap-x-8 gap-y-3 md:grid-cols-[minmax(0,440px)_minmax(0,1fr)]">
        <LineDrawing drawing={procedure.drawing} />
        <div>
          {procedure.before && (
            <>
              <p className="font-semibold">Before a reading means anything</p>
              <ul className="mb-3 list-disc pl-5">
                {procedure.before.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </>
          )}
          <ol className="list-decimal pl-5">
            {procedure.steps.map((text) => (
              <li key={text} className="mb-1">
                {text}
              </li>
            ))}
          </ol>
        </div>
      </div>
      <dl className="mt-3">
        {ROWS.map(([name, key]) => (
          <div key={key} className="grid gap-x-6 border-hair border-b py-2 sm:grid-cols-[160px_1fr]">
            <dt className="font-semibold">{name}</dt>
            <dd>{procedure[key]}</dd>
          </div>
        ))}
      </dl>
      <p className="mt-2 text-[14px] text-soft">Common practice, no source, where none is named. {MAKER}</p>
    </div>
  );
}
