import { MOST_BYTES } from "@/lib/domain/imports/decode";
import { PHOTO } from "@/lib/domain/photos/limits";

export interface BodyLimit {
  /** Bytes that a request may send. */
  readonly most: number;
  /** Milliseconds in which all of it must have come. */
  readonly withinMs: number;
  /** Passed on while it comes; else only once it is whole. */
  readonly streamed: boolean;
}

const KB = 1024;
const MB = 1024 * KB;

/** Signing in and up, new passwords, customers' links, calendars, health: whoever is not signed in, and a little to say. */
const DOOR: BodyLimit = { most: 16 * KB, withinMs: 15_000, streamed: false };
/** The forms of a shop's people. */
const FORM: BodyLimit = { most: MB, withinMs: 60_000, streamed: false };
/** A file's text in a form; the form's frame and the line ends that a form doubles come on top. */
const TEXT_FILE: BodyLimit = { most: MOST_BYTES + MB, withinMs: 300_000, streamed: true };
/** Packages and recipes: 400,000 characters of up to four bytes, and what was typed before once more. */
const RECIPE: BodyLimit = { most: 4 * MB, withinMs: 120_000, streamed: true };
/** The route says itself what a photo may weigh; this is a little more, so that its own words are heard. */
const PICTURE: BodyLimit = { most: PHOTO.mostBytes + MB, withinMs: 300_000, streamed: true };

/** The addresses at which files are expected: every other one takes a form, or less. */
const FILES: readonly (readonly [RegExp, BodyLimit])[] = [
  [/^\/api\/s\/[^/]+\/photos$/, PICTURE],
  [/^\/s\/[^/]+\/import\/[^/]+$/, TEXT_FILE],
  [/^\/s\/[^/]+\/stock\/suppliers\/[^/]+\/prices$/, TEXT_FILE],
  [/^\/s\/[^/]+\/jobs\/[^/]+\/ride$/, TEXT_FILE],
  [/^\/s\/[^/]+\/bench\/(?:lambda|dyno)$/, TEXT_FILE],
  [/^\/s\/[^/]+\/packages\/import$/, RECIPE],
  [/^\/s\/[^/]+\/packages\/[^/]+(?:\/(?:write|edit(?:\/[^/]+)?))?$/, RECIPE],
];

/** What a request to this address may send. An address that is spelled strangely counts as the door. */
export function bodyLimit(method: string, address: string): BodyLimit {
  const path = address.split(/[?#]/, 1)[0] ?? "";
  if (method !== "POST") return DOOR;
  const found = FILES.find(([pattern]) => pattern.test(path));
  return found?.[1] ?? (/^\/(?:api\/)?s\/[^/]/.test(path) ? FORM : DOOR);
}
