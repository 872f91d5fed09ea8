import { cx } from "./cx";

export interface ThumbPhoto {
  readonly id: number;
  readonly width: number;
  readonly height: number;
  readonly caption: string;
}

export interface ThumbsProps {
  photos: readonly ThumbPhoto[];
  /** What they show; with a number it stands in for a caption that is missing. */
  of: string;
  /** Address of a photo's small picture, and of where it opens large. */
  small: (id: number) => string;
  large: (id: number) => string;
  /** In one row that is moved sideways. */
  row?: boolean | undefined;
}

/** Small pictures with their captions; each opens large. */
export function Thumbs({ photos, of, small, large, row }: ThumbsProps) {
  if (photos.length === 0) return null;
  return (
    <ul
      className={cx(
        "my-2 grid gap-3",
        row
          ? "auto-cols-[6.5rem] grid-flow-col overflow-x-auto"
          : "grid-cols-[repeat(auto-fill,minmax(8.5rem,1fr))]",
      )}
    >
      {photos.map((photo, at) => (
        <li key={photo.id} className="min-w-0">
          <a href={large(photo.id)} className="block text-[14px] no-underline hover:underline">
            {/* biome-ignore lint/performance/noImgElement: behind a session, so no shared optimiser may fetch and keep it */}
            <img
              src={small(photo.id)}
              alt={photo.caption || `${of}, photo ${at + 1}`}
              width={photo.width}
              height={photo.height}
              loading="lazy"
              className="aspect-[4/3] h-auto w-full rounded-[3px] border border-hair bg-sheet object-cover"
            />
            {photo.caption && (
              <span aria-hidden="true" className="mt-1 block">
                {photo.caption}
              </span>
            )}
          </a>
        </li>
      ))}
    </ul>
  );
}
