import { Section } from "@/app/_ui/Section";
import type { JobView } from "@/lib/data/jobs/get";
import type { ListedPhoto } from "@/lib/data/photos/list";
import { ShopThumbs } from "../../_photos/ShopThumbs";

interface JobPhotosProps {
  slug: string;
  steps: JobView["steps"];
  photos: ReadonlyMap<number, readonly ListedPhoto[]>;
}

/** What was photographed along the work, step by step. */
export function JobPhotos({ slug, steps, photos }: JobPhotosProps) {
  const seen = steps.filter((step) => photos.has(step.id));
  if (seen.length === 0) return null;
  return (
    <Section title="Photographed along the work">
      {seen.map((step) => (
        <div key={step.id} className="border-hair border-b py-2">
          <p>
            <span className="font-mono text-soft">{step.position}</span> {step.name}
          </p>
          <ShopThumbs slug={slug} photos={photos.get(step.id) ?? []} of={step.name} />
        </div>
      ))}
    </Section>
  );
}
