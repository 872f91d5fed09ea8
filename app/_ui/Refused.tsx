import type { ReactNode, Ref } from "react";
import { Shape } from "./Shape";

export interface RefusedProps {
  /** What happened. */
  message: string;
  /** What to do. */
  remedy?: string | undefined;
  fields?: Readonly<Record<string, string>> | undefined;
  onField?: ((name: string) => void) | undefined;
  boxRef?: Ref<HTMLDivElement> | undefined;
  /** What does it, where one act does. */
  act?: ReactNode;
}

/** Says that something was not done, why, and what to do. */
export function Refused({ message, remedy, fields, onField, boxRef, act }: RefusedProps) {
  const lines = Object.entries(fields ?? {});
  return (
    <div
      ref={boxRef}
      role="alert"
      tabIndex={-1}
      className="mb-4 border-l-4 border-oxide bg-oxide-wash px-4 py-3 text-[15px]"
    >
      <p className="flex items-baseline gap-2 font-semibold">
        <Shape shape="diamond" tone="oxide" />
        <span>{message}</span>
      </p>
      {remedy && <p className="mt-1">{remedy}</p>}
      {act && <div className="mt-2">{act}</div>}
      {onField && lines.length > 0 && (
        <ul className="mt-2">
          {lines.map(([name, text]) => (
            <li key={name}>
              <button
                type="button"
                className="min-h-6 text-start underline underline-offset-4 pointer-coarse:min-h-12"
                onClick={() => onField(name)}
              >
                {text}
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
