import { figureText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import type { FlowsLike } from "@/lib/domain/tuning/sameThread";

interface Props {
  /** Jets of other drawers; nothing is shown where there are none. */
  jets: readonly FlowsLike[] | undefined;
  slug: string;
  locale: string;
}

/** What could be screwed in instead, never as the same number: each by its own, with what it flows as. */
export function SameThread({ jets, slug, locale }: Props) {
  const [first] = jets ?? [];
  if (!jets || !first) return null;
  const across = jets.some((jet) => jet.across);
  const size = (value: number) => figureText(value, locale, 1);
  return (
    <span className="block text-[14px]">
      <span className="text-soft">
        Same thread in another drawer, approximate{across ? " across conventions" : ""}:
      </span>
      {jets.map((jet) => (
        <span key={jet.partId} className="block">
          <Link
            href={`/s/${slug}/stock/${jet.partId}`}
            className="inline-flex min-h-6 items-center font-mono underline underline-offset-4 pointer-coarse:min-h-12"
          >
            {jet.code}
          </Link>
          , {figureText(jet.size, locale)} of “{jet.family}”, {figureText(jet.freeMilli / 1000, locale)} free:
          flows as about {size(jet.equivalent)} here, {size(jet.low)} to {size(jet.high)}
        </span>
      ))}
    </span>
  );
}
