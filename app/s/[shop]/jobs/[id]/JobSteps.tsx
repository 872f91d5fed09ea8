"use client";
import { Link } from "@/app/_ui/Link";
import { Minutes } from "@/app/_ui/Minutes";
import { State } from "@/app/_ui/State";
import type { TimeOfSteps } from "./stepRows";

const LOOK = {
  todo: { shape: "circle", word: "to do" },
  done: { shape: "filled", word: "done" },
  skipped: { shape: "dash", word: "skipped" },
} as const;

/** Every step with its state and its minutes, as a browser draws them from their rows. */
export function JobSteps({ time, card }: { time: TimeOfSteps; card: string }) {
  return (
    <table className="ledger">
      <caption className="sr-only">
        Steps with planned and spent minutes, and what is billed of the whole job
      </caption>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col">State</th>
          <th scope="col" data-align="end">
            Planned
          </th>
          <th scope="col" data-align="end">
            Spent
          </th>
          <th scope="col" data-align="end">
            To bill
          </th>
        </tr>
      </thead>
      <tbody>
        {time.steps.map((step) => (
          <tr key={step.id}>
            <td data-first="">
              <Link href={`${card}?step=${step.position}`} className="underline-offset-4 hover:underline">
                <span className="font-mono text-soft">{step.position}</span> {step.name}
              </Link>
              {step.about && <span className="block text-[14px] text-soft">{step.about}</span>}
            </td>
            <td data-name="State">
              <State shape={LOOK[step.state].shape}>{LOOK[step.state].word}</State>
            </td>
            <TimeCells planned={step.planned} spent={step.spent} />
          </tr>
        ))}
        {time.loose !== null && (
          <tr>
            <td data-first="">Outside the steps</td>
            <td />
            <TimeCells planned={0} spent={time.loose} />
          </tr>
        )}
        {time.grades.map((one) => (
          <tr key={one.grade}>
            <td data-first="">Grade “{one.grade}”, rounded up once</td>
            <td />
            <td data-empty="" />
            <td data-name="Spent" data-align="end">
              <Minutes minutes={one.spent} />
            </td>
            <td data-name="To bill" data-align="end">
              <Minutes minutes={one.billed} />
            </td>
          </tr>
        ))}
        <tr className="font-bold">
          <td data-first="">All</td>
          <td />
          <TimeCells {...time.all} />
        </tr>
      </tbody>
    </table>
  );
}

function TimeCells({ planned, spent, billed }: { planned: number; spent: number; billed?: number }) {
  const cells = [
    ["Planned", planned],
    ["Spent", spent],
    ["To bill", billed ?? null],
  ] as const;
  return cells.map(([name, minutes]) => (
    <td key={name} data-name={name} data-align="end" data-empty={minutes === null ? "" : undefined}>
      {minutes !== null && <Minutes minutes={minutes} />}
    </td>
  ));
}
