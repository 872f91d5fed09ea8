import { byWork } from "@/lib/domain/quoting/byWork";
import { wordsIn } from "@/lib/words/words";

interface Option {
  readonly key: string;
  readonly work?: string;
  readonly name: string;
  readonly plain: string;
  /** Complaints of the bike's intake that it answers. */
  readonly answers?: readonly string[];
}

interface Work {
  readonly key: string;
  readonly kind: "package" | "written" | "parts" | "text";
  readonly name: string;
  readonly text: string;
}

const ROW = "border-hair border-b py-2.5";

/** What is done, work by work: a package under its name, a work or a text by itself. */
export function WorksDone({
  works,
  options,
  locale,
}: {
  works: readonly Work[] | undefined;
  options: readonly Option[];
  locale: string;
}) {
  const say = wordsIn(locale);
  const row = (o: Option) => (
    <li key={o.key} className={ROW}>
      <strong>{o.name}</strong>
      <span className="block whitespace-pre-line">{o.plain}</span>
      {o.answers?.map((answer) => (
        <span key={answer} className="block text-[15px] text-soft">
          {say("quotePage.answersComplaint", { answer })}
        </span>
      ))}
    </li>
  );
  if (!works) return <ul>{options.map(row)}</ul>;
  return byWork(works, options).map(({ work, lines }) =>
    work?.kind === "text" ? (
      <div key={work.key} className={ROW}>
        <strong>{work.name}</strong>
        <p className="whitespace-pre-line">{work.text}</p>
      </div>
    ) : (
      <section key={work?.key ?? "rest"} className="mb-3">
        {work?.kind === "package" && <h3 className="pt-2 font-bold text-[17px]">{work.name}</h3>}
        <ul>{lines.map(row)}</ul>
      </section>
    ),
  );
}
