import { createHash } from "node:crypto";
import { createWriteStream, renameSync, rmSync } from "node:fs";
import { open } from "node:fs/promises";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { ZipFile } from "yazl";

export interface Packed {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

type Parts = AsyncIterable<string | Uint8Array> | Iterable<string | Uint8Array>;

export interface ZipOut {
  /** Adds what `parts` answers once its turn has come; a picture is not pressed once more. */
  add(name: string, parts: () => Parts, pressed?: boolean): void;
}

/**
 * Writes a zip file, entry after entry and piece by piece; it bears its name once it is whole and on the disk. `fill` names the
 * entries; `packed` grows as they are written, so that the last of them may tell of the others.
 */
export async function writeZip(
  file: string,
  fill: (zip: ZipOut, packed: readonly Packed[]) => void,
): Promise<void> {
  const making = `${file}.in-the-making`;
  const zip = new ZipFile();
  const packed: Packed[] = [];
  fill(
    {
      add: (name, parts, pressed = false) =>
        zip.addReadStreamLazy(name, { compress: !pressed, mode: 0o100600 }, (give) =>
          give(null, Readable.from(counted(name, parts, packed), { objectMode: false })),
        ),
    },
    packed,
  );
  zip.end();
  const stop = new AbortController();
  let failure: unknown;
  zip.on("error", (cause: unknown) => {
    failure ??= cause;
    stop.abort();
  });
  try {
    await pipeline(zip.outputStream, createWriteStream(making, { mode: 0o600 }), { signal: stop.signal });
    const handle = await open(making, "r+");
    await handle.sync().finally(() => handle.close());
    renameSync(making, file);
  } catch (cause) {
    rmSync(making, { force: true });
    throw failure ?? cause;
  }
}

async function* counted(name: string, parts: () => Parts, packed: Packed[]): AsyncGenerator<Buffer> {
  const hash = createHash("sha256");
  let bytes = 0;
  for await (const part of parts()) {
    const piece = typeof part === "string" ? Buffer.from(part, "utf8") : Buffer.from(part);
    hash.update(piece);
    bytes += piece.length;
    yield piece;
  }
  packed.push({ name, bytes, sha256: hash.digest("hex") });
}
