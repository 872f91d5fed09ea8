import { Link } from "@/app/_ui/Link";
import { Minutes } from "@/app/_ui/Minutes";
import { State } from "@/app/_ui/State";
import type { JobView } from "@/lib/data/jobs/get";

const LOOK = {
  todo: { shape: "circle", word: "to do" },
  done: { shape: "filled", word: "done" },
  skipped: { shape: "dash", word: "skipped" },
} as const;

type Hold = JobView["steps"][number]["holdPoints"][number];

function held(hold: Hold): string {
  const last = hold.readings[0];
  if (hold.overrideReason) return `${hold.name}: overridden, ${hold.overrideReason}`;
  if (last?.value != null)
    return `${hold.name} ${last.value} ${hold.unit} ${last.inside ? "inside" : "outside"}`;
  return hold.passed ? `${hold.name}, yes` : `${hold.name}, open`;
}

/** Every step with its state, its hold points, and planned and spent minutes; what is billed is rounded once for each grade. */
export function JobSteps({ job, base }: { job: JobView; base: string }) {
  const timeOf = new Map(job.time.steps.map((line) => [line.stepId, line]));
  const loose = timeOf.get(null);
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
        {job.steps.map((step) => {
          const look = LOOK[step.state];
          const line = timeOf.get(step.id);
          return (
            <tr key={step.id}>
              <td data-first="">
                <Link
                  href={`${base}/jobs/${job.id}/card?step=${step.position}`}
                  className="underline-offset-4 hover:underline"
                >
                  <span className="font-mono text-soft">{step.position}</span> {step.name}
                </Link>
                {(step.holdPoints.length > 0 || step.reason) && (
                  <span className="block text-[14px] text-soft">
                    {[...step.holdPoints.map(held), step.reason].filter(Boolean).join(" · ")}
                  </span>
                )}
              </td>
              <td data-name="State">
                <State shape={look.shape}>{look.word}</State>
              </td>
              <TimeCells planned={step.minutes} spent={line?.spentMinutes ?? 0} />
            </tr>
          );
        })}
        {loose && (
          <tr>
            <td data-first="">Outside the steps</td>
            <td />
            <TimeCells planned={0} spent={loose.spentMinutes} />
          </tr>
        )}
        {job.time.grades.length > 1 &&
          job.time.grades.map((one) => (
            <tr key={one.grade}>
              <td data-first="">Grade “{one.grade}”, rounded up once</td>
              <td />
              <td data-empty="" />
              <td data-name="Spent" data-align="end">
                <Minutes minutes={Math.round(one.spentMinutes)} />
              </td>
              <td data-name="To bill" data-align="end">
                <Minutes minutes={one.billedMinutes} />
              </td>
            </tr>
          ))}
        <tr className="font-bold">
          <td data-first="">All</td>
          <td />
          <TimeCells
            planned={job.time.plannedMinutes}
            spent={job.time.spentMinutes}
            billed={job.time.billedMinutes}
          />
        </tr>
      </tbody>
    </table>
  );
}

function TimeCells({ planned, spent, billed }: { planned: number; spent: number; billed?: number }) {
  const cells = [
    ["Planned", planned],
    ["Spent", Math.round(spent)],
    ["To bill", billed ?? null],
  ] as const;
  return cells.map(([name, minutes]) => (
    <td key={name} data-name={name} data-align="end" data-empty={minutes === null ? "" : undefined}>
      {minutes !== null && <Minutes minutes={minutes} />}
    </td>
  ));
}
