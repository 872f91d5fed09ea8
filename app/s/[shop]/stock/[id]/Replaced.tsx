import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import type { PartView } from "@/lib/data/stock/parts";

const LINK =
  "inline-flex min-h-6 items-center font-mono underline underline-offset-4 pointer-coarse:min-h-12";

/** Whose place a part took, and which took its own. Nothing where neither is so. */
export function Replaced({
  slug,
  part,
  text,
}: {
  slug: string;
  part: PartView;
  text: (milli: number) => string;
}) {
  const { replacedBy, replaces } = part;
  if (!replacedBy && replaces.length === 0) return null;
  return (
    <Note>
      {replacedBy && (
        <>
          Made no more:{" "}
          <Link href={`/s/${slug}/stock/${replacedBy.id}`} className={LINK}>
            {replacedBy.code}
          </Link>{" "}
          takes its place.{" "}
          {part.onHandMilli > 0 && `The ${text(part.onHandMilli)} that are left are used first. `}
        </>
      )}
      {replaces.map((old) => (
        <span key={old.id}>
          Takes the place of{" "}
          <Link href={`/s/${slug}/stock/${old.id}`} className={LINK}>
            {old.code}
          </Link>
          {old.onHandMilli > 0 ? `, of which ${text(old.onHandMilli)} are used first. ` : ". "}
        </span>
      ))}
    </Note>
  );
}
