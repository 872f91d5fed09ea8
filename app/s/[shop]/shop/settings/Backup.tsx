import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import { Instant } from "@/app/_ui/Instant";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { BackupStanding } from "@/lib/gate/backups";

interface BackupProps {
  standing: BackupStanding;
  locale: string;
  zone: string;
}

/** How this shop's copies stand: when, how large, and whether the last one passed its check. */
export function Backup({ standing, locale, zone }: BackupProps) {
  const { known, goodAt, bytes, triedAt, problems, late } = standing;
  return (
    <Section title="Backup" id="backup" className="mt-8 max-w-[760px]">
      {known ? (
        <Facts
          rows={[
            {
              key: "good",
              name: "Last good copy",
              value: goodAt ? <Instant at={goodAt.toISOString()} locale={locale} zone={zone} /> : "none yet",
            },
            { key: "size", name: "Size, with photos", value: goodAt ? megabytes(bytes, locale) : "–" },
            {
              key: "check",
              name: "Opened and checked",
              value: <Check late={late} problems={problems.length} tried={triedAt !== null} />,
            },
          ]}
        />
      ) : (
        <p>
          This server makes no backups of its own. Ask whoever runs it how this shop's records are copied.
        </p>
      )}
      {problems.length > 0 && (
        <>
          <ul className="mt-3">
            {problems.map((problem) => (
              <li key={problem} className="border-hair border-b py-2">
                {problem}
              </li>
            ))}
          </ul>
          <p className="mt-3">
            The last good copy is kept until there is a newer one. Tell whoever runs the server.
          </p>
        </>
      )}
    </Section>
  );
}

function Check({ late, problems, tried }: { late: boolean; problems: number; tried: boolean }) {
  if (problems > 0)
    return (
      <State shape="triangle" tone="oxide">
        {problems} to look at
      </State>
    );
  if (late)
    return (
      <State shape="triangle" tone="oxide">
        too long ago
      </State>
    );
  return tried ? (
    <State shape="filled" tone="pine">
      all holds
    </State>
  ) : (
    <State shape="circle">not yet</State>
  );
}

const megabytes = (bytes: number, locale: string) => `${figureText(bytes / 1_000_000, locale, 1)} MB`;
