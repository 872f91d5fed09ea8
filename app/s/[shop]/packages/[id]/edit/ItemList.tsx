import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { Shape } from "@/app/_ui/Shape";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { arrange, undoRemove } from "../../actions";
import { PART_WORDS, RULE_WORDS } from "./partWords";

export interface ItemLine {
  readonly key: string;
  readonly name: string;
  readonly sub: string;
  /** The checks have something against it. */
  readonly troubled: boolean;
  /** First or last of those it can change places with. */
  readonly first?: boolean;
  readonly last?: boolean;
}

interface Props {
  slug: string;
  packageId: number;
  part: RecipePart;
  lines: readonly ItemLine[];
}

/** One list of the draft: open an item, move it, take it out (which can be undone), add another. */
export function ItemList({ slug, packageId, part, lines }: Props) {
  const words = PART_WORDS[part];
  const path = `/s/${slug}/packages/${packageId}/edit/${part}`;
  return (
    <Section title={words.title} id={part} className="scroll-mt-4">
      {lines.length === 0 && <p className="mb-2 text-[15px] text-soft">{words.none}</p>}
      <Form
        action={arrange}
        undo={undoRemove}
        shop={slug}
        hidden={{ packageId: String(packageId), part }}
        label={`Order of ${words.title.toLowerCase()}`}
      >
        <ul>
          {lines.map((line, at) => (
            <li key={line.key} className="border-hair border-b py-2">
              <Link
                href={`${path}?key=${encodeURIComponent(line.key)}`}
                className="block min-h-6 underline decoration-hair underline-offset-4 hover:decoration-ink pointer-coarse:min-h-12"
              >
                {line.troubled && (
                  <span className="mr-1.5 text-oxide">
                    <Shape shape="diamond" tone="oxide" />
                    <span className="sr-only">has a fault: </span>
                  </span>
                )}
                <strong>{line.name}</strong>
                {line.sub && <span className="block text-[14px] text-soft">{line.sub}</span>}
              </Link>
              <div className="mt-1 flex flex-wrap gap-x-5 gap-y-2">
                {!(line.first ?? at === 0) && <ActButton act="up" word="Up" line={line} />}
                {!(line.last ?? at === lines.length - 1) && <ActButton act="down" word="Down" line={line} />}
                <ActButton act="out" word="Take out" line={line} />
              </div>
            </li>
          ))}
        </ul>
      </Form>
      <div className="mt-3 flex flex-wrap gap-2">
        {part === "rules" ? (
          Object.entries(RULE_WORDS).map(([kind, says]) => (
            <LinkButton key={kind} href={`${path}?kind=${encodeURIComponent(kind)}`}>
              {`Add “${says}”`}
            </LinkButton>
          ))
        ) : (
          <LinkButton href={path}>{words.add}</LinkButton>
        )}
      </div>
    </Section>
  );
}

function ActButton({ act, word, line }: { act: "up" | "down" | "out"; word: string; line: ItemLine }) {
  return (
    <SubmitButton tone="quiet" name="act" value={`${act}:${line.key}`}>
      {word}
      <span className="sr-only"> {line.name}</span>
    </SubmitButton>
  );
}
