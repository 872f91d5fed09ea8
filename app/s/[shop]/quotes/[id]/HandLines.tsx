import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { takeLineOff } from "../actions";
import type { Given } from "./given";
import type { HandRow } from "./shown/terms";

/** The lines and parts written by hand, each to be taken off. */
export function HandLines({ slug, hidden, lines }: Given & { lines: readonly HandRow[] }) {
  return (
    <ul className="mb-3">
      {lines.map((line) => (
        <li key={line.key} className="flex flex-wrap items-baseline gap-x-4 border-hair border-b py-2">
          <span className="min-w-0 flex-1">
            {line.name}
            <span className="block text-[14px] text-soft">{line.about}</span>
          </span>
          <span className="font-mono">{line.price}</span>
          <Form
            action={takeLineOff}
            shop={slug}
            hidden={{ ...hidden, line: line.key }}
            label={`Take off ${line.name}`}
          >
            <SubmitButton tone="quiet">
              Take off<span className="sr-only"> {line.name}</span>
            </SubmitButton>
          </Form>
        </li>
      ))}
    </ul>
  );
}
