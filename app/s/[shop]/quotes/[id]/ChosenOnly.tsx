import type { ChosenShown } from "./shown/choices";

/** What a draft has chosen, without ticks. */
export function ChosenOnly({ chosen }: { chosen: readonly ChosenShown[] }) {
  return (
    <ul>
      {chosen.map((o) => (
        <li key={o.key} className="flex justify-between gap-4 border-hair border-b py-2">
          <span>
            <strong>{o.name}</strong>
            <span className="block text-[14px] text-soft">{o.about}</span>
            {o.answers.map((answer) => (
              <span key={answer} className="block text-[14px]">
                Answers: {answer}
              </span>
            ))}
          </span>
          <span className="font-mono">{o.figure}</span>
        </li>
      ))}
    </ul>
  );
}
