import { figureText } from "@/app/_ui/format";
import type { CardStep } from "@/lib/data/jobs/card";

/** The value to make of each setting of a step, large, with what was found. */
export function StepSettings({ settings, locale }: { settings: CardStep["settings"]; locale: string }) {
  if (settings.length === 0) return null;
  const several = new Set(settings.map((one) => one.carburettor)).size > 1;
  return (
    <div className="mt-3 border-brass border-l-4 bg-brass-wash px-3.5 py-2">
      <dl>
        {settings.map(({ def, carburettor, from, to, why, how }) => (
          <div
            key={`${carburettor} ${def.key}`}
            className="flex flex-wrap items-baseline justify-between gap-x-4 py-1"
          >
            <dt className="min-w-0">
              {def.name}
              {several && <span className="text-soft">, carburettor {carburettor}</span>}
            </dt>
            <dd className="text-end">
              {to === null ? (
                <strong>not settled yet</strong>
              ) : (
                <>
                  <span className="font-bold font-mono text-[26px] leading-tight">
                    {figureText(to, locale, def.decimals)}
                  </span>
                  {def.unit && ` ${def.unit}`}
                </>
              )}
              <span className="block text-[14px] text-soft">
                {from === null ? "not known as found" : `found: ${figureText(from, locale, def.decimals)}`}
              </span>
            </dd>
            {how.length + why.length > 0 && (
              <dd className="w-full text-[14px]">
                {how.map((line) => (
                  <span key={line} className="block">
                    {line}
                  </span>
                ))}
                {why.map((line) => (
                  <span key={line} className="block text-soft">
                    {line}
                  </span>
                ))}
              </dd>
            )}
          </div>
        ))}
      </dl>
      <p className="text-[14px] text-soft">A starting point: verify by plug, lambda and test ride.</p>
    </div>
  );
}
