"use client";
import { Button } from "./Button";
import type { PhotoOnItsWay } from "./photoSending";
import { photoWords as words } from "./photoWords";
import { Shape } from "./Shape";

export interface PhotoStateProps {
  photo: PhotoOnItsWay;
  onAgain?: (() => void) | undefined;
  onDrop: () => void;
}

/** A chosen photo, small, with how far it has come or why it has not. */
export function PhotoState({ photo, onAgain, onDrop }: PhotoStateProps) {
  const { share, trouble } = photo;
  return (
    <div className="my-2 flex items-start gap-3" role={trouble ? "alert" : "status"}>
      {/* biome-ignore lint/performance/noImgElement: a picture on this device, not one of the server's */}
      <img
        src={photo.seen}
        alt={words.photoChosen}
        className="size-20 flex-none rounded-[3px] object-cover"
      />
      <div className="min-w-0 flex-1">
        {share !== null && (
          <>
            <p>{share < 1 ? words.photoSending : words.photoArriving}</p>
            <progress
              aria-label={words.photoSending}
              max={1}
              value={share < 1 ? share : undefined}
              className="h-3 w-full accent-brass"
            />
          </>
        )}
        {trouble && (
          <>
            <p className="flex items-baseline gap-2">
              <Shape shape="diamond" tone="oxide" />
              <span>{trouble}</span>
            </p>
            <p className="mt-2 flex flex-wrap gap-3">
              {onAgain && <Button onClick={onAgain}>{words.photoAgain}</Button>}
              <Button tone="quiet" onClick={onDrop}>
                {words.photoDrop}
              </Button>
            </p>
          </>
        )}
        {share === null && !trouble && (
          <Button tone="quiet" onClick={onDrop}>
            {words.photoDrop}
          </Button>
        )}
      </div>
    </div>
  );
}
