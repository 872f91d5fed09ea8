import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import type { LabelFile } from "@/lib/domain/stock/labelFiles";

/** The files of labels that are too many for one. */
export function LabelFiles({ to, count, files }: { to: string; count: number; files: readonly LabelFile[] }) {
  return (
    <Section title={`${count} labels in ${files.length} files`}>
      <p className="mb-3 max-w-prose text-soft">Print them in this order: each ends on a full sheet.</p>
      <ol className="flex flex-wrap gap-2.5">
        {files.map((file, at) => (
          <li key={file.from}>
            <LinkButton href={`${to}&file=${at + 1}`} download>
              Labels {file.from + 1} to {file.to}
            </LinkButton>
          </li>
        ))}
      </ol>
    </Section>
  );
}
