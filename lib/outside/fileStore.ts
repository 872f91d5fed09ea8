import { randomBytes } from "node:crypto";
import { mkdir, open, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { Refusal } from "@/lib/domain/refusal";

export interface KeptFile {
  readonly name: string;
  readonly writtenAt: Date;
  readonly bytes: number;
}

/** Where one shop's pictures are kept. Names are made by `newFileName`; anything else is refused as a bug. */
export interface FileStore {
  /** On disk when it returns; a name is written once. */
  put(name: string, bytes: Uint8Array): Promise<void>;
  get(name: string): Promise<Uint8Array | null>;
  remove(name: string): Promise<void>;
  list(): Promise<KeptFile[]>;
  /** Removes all that the shop keeps. */
  clear(): Promise<void>;
}

/** 128 random bits: not to be guessed, and with nothing in them of a person or a file's old name. */
export function newFileName(): string {
  return randomBytes(16).toString("hex");
}

// No dot but the one before the ending, no slash, no drive: a name cannot leave its folder.
const NAME = /^[a-z0-9]{8,64}(-[a-z]{1,16})?\.[a-z]{2,4}$/;

/** The name as it was given; throws where it is none that a file store gives. */
export function keptName(name: string): string {
  if (!isKeptName(name)) throw new Error(`"${name}" is no name of a kept file.`);
  return name;
}

export const isKeptName = (name: string): boolean => NAME.test(name);

/** A file store in a local folder. Several app processes share it by sharing the folder. */
export function folderStore(folder: string): FileStore {
  const at = (name: string) => join(folder, keptName(name));
  return {
    put: async (name, bytes) => {
      const place = at(name);
      await mkdir(folder, { recursive: true });
      const making = `${place}.${newFileName()}`;
      try {
        await written(making, bytes);
        await rename(making, place);
        await settled(folder);
      } catch (cause) {
        await rm(making, { force: true });
        throw diskRefusal(cause);
      }
    },
    get: async (name) => {
      try {
        return await readFile(at(name));
      } catch (cause) {
        if (isMissing(cause)) return null;
        throw cause;
      }
    },
    remove: (name) => rm(at(name), { force: true }),
    list: async () => {
      const names = await readdir(folder).catch((cause: unknown) => {
        if (isMissing(cause)) return [];
        throw cause;
      });
      const kept = await Promise.all(
        names.map(async (name) => {
          const found = await stat(join(folder, name)).catch((cause: unknown) => {
            if (isMissing(cause)) return null;
            throw cause;
          });
          return found && isKeptName(name) ? [{ name, writtenAt: found.mtime, bytes: found.size }] : [];
        }),
      );
      return kept.flat();
    },
    clear: () => rm(folder, { recursive: true, force: true }),
  };
}

async function written(place: string, bytes: Uint8Array): Promise<void> {
  const file = await open(place, "wx", 0o600);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** The row that names a file commits after this: so the folder's entry must be on disk too. */
async function settled(folder: string): Promise<void> {
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

function codeOf(cause: unknown): string {
  return String((cause as { code?: string } | null)?.code ?? "");
}

const isMissing = (cause: unknown) => codeOf(cause) === "ENOENT";

function diskRefusal(cause: unknown): unknown {
  if (["ENOSPC", "EDQUOT"].includes(codeOf(cause)))
    return new Refusal(
      "The disk is full: the photo was not kept.",
      "Free some space on the server, then send it again.",
    );
  if (["EROFS", "EACCES", "EPERM"].includes(codeOf(cause)))
    return new Refusal(
      "The data folder is read-only: the photo was not kept.",
      "Make the data folder writable, then send it again.",
    );
  return cause;
}
